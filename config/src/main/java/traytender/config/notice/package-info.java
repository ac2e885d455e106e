/** Who wants to hear of alerts, by what way and when. Nothing is null unless marked. */
@NullMarked
package traytender.config.notice;

import org.jspecify.annotations.NullMarked;
