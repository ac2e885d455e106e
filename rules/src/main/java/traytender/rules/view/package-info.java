/** What the watch knows right now, as values for the page and for files. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.view;

import org.jspecify.annotations.NullMarked;
