/** What the grower is told: an alert record, its kind and its urgency. Nothing is null unless marked. */
@NullMarked
package traytender.config.alert;

import org.jspecify.annotations.NullMarked;
