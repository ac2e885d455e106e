/** One measured value and the marks it carries. Nothing is null unless marked. */
@NullMarked
package traytender.config.reading;

import org.jspecify.annotations.NullMarked;
