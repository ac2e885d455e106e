/** Crops, their stages and the limits every rule compares with. Nothing is null unless marked. */
@NullMarked
package traytender.config.crop;

import org.jspecify.annotations.NullMarked;
