/** The one connection to an MQTT broker; the only package that knows the client library. Nothing is null unless marked. */
@NullMarked
package traytender.ingest.mqtt;

import org.jspecify.annotations.NullMarked;
