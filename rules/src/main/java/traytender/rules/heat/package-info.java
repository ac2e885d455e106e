/** Heat of a tray over its mat: a first-order model fitted as it runs. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.heat;

import org.jspecify.annotations.NullMarked;
