/** What the grower is told, in the grower's words: what is so with its figures, and what a good grower would do. Nothing is null unless marked. */
@NullMarked
package traytender.rules.words;

import org.jspecify.annotations.NullMarked;
