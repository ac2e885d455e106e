/** The bench as the grower owns it: rooms, trays, zones, sowings, probes and what their messages mean. Nothing is null unless marked. */
@NullMarked
package traytender.config.site;

import org.jspecify.annotations.NullMarked;
