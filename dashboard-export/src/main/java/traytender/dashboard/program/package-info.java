/**
 * The program put together from its parts: broker, messages in, store, watch, notices and page, started in order and stopped
 * in order. Nothing is null unless marked.
 */
@NullMarked
package traytender.dashboard.program;

import org.jspecify.annotations.NullMarked;
