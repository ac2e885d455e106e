/**
 * The nursery's nature: weather, rooms, mats and trays, cell by cell, stepped a minute at a time. Nothing here knows a probe, a
 * message or a clock of this machine; a {@link traytender.ingest.nursery.world.World} can be copied and run on, so that one can ask what would have
 * happened without the next watering. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.nursery.world;

import org.jspecify.annotations.NullMarked;
