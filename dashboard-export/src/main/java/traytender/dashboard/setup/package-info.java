/**
 * Setting up and changing the bench by the page: the site folder's files changed in single places, copied before, taken back, and
 * a file changed by hand taken over; and sensors found, calibrated and let in. Nothing is null unless marked.
 */
@NullMarked
package traytender.dashboard.setup;

import org.jspecify.annotations.NullMarked;
