/** What time does to findings: how long they must hold, when an alert opens and closes, and under which id. Nothing is null unless marked. */
@NullMarked
package traytender.rules.book;

import org.jspecify.annotations.NullMarked;
