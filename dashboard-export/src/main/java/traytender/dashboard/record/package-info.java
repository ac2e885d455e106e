/**
 * What leaves the program as JSON in a form others rely on, written the same way everywhere: page, files and messages.
 * Nothing is null unless marked so.
 */
@NullMarked
package traytender.dashboard.record;

import org.jspecify.annotations.NullMarked;
