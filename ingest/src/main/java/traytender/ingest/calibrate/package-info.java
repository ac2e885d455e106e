/** What turns a probe's raw value into the quantity it measures, and marks what cannot be believed. Nothing is null unless marked. */
@NullMarked
package traytender.ingest.calibrate;

import org.jspecify.annotations.NullMarked;
