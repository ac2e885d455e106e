/** Dated entries the grower makes, and who stands where at what stage because of them. Nothing is null unless marked. */
@NullMarked
package traytender.config.journal;

import org.jspecify.annotations.NullMarked;
