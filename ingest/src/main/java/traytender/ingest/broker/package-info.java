/** The program's own MQTT broker, in the same process; the only package that knows the broker's library. Nothing is null unless marked. */
@NullMarked
package traytender.ingest.broker;

import org.jspecify.annotations.NullMarked;
