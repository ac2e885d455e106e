/**
 * How wet a tray's cells are, how fast they dry, when they were watered and when they will be dry: numbers with their
 * doubt, worked out causally from readings as they come. Nothing is null unless marked; NaN is unknown.
 */
@NullMarked
package traytender.rules.drying;

import org.jspecify.annotations.NullMarked;
