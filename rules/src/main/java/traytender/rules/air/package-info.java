/** Moist air: vapour pressure, deficit and dew point by FAO-56. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.air;

import org.jspecify.annotations.NullMarked;
