/** The night from sunset to sunrise: its bounds, what every probe saw in it, degree days, and how low the air will go. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.night;

import org.jspecify.annotations.NullMarked;
