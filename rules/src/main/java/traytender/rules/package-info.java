/** The watch over every tray: readings and journal in, alerts and views out, live or in replay. Nothing is null unless marked. */
@NullMarked
package traytender.rules;

import org.jspecify.annotations.NullMarked;
