/** Every cell of a tray estimated from few probes, with its doubt. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.cells;

import org.jspecify.annotations.NullMarked;
