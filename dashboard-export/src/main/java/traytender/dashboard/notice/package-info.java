/**
 * Notices to people: which alerts each hears of and when, by mail and webhook, kept and tried again until they are delivered.
 * Nothing is null unless marked.
 */
@NullMarked
package traytender.dashboard.notice;

import org.jspecify.annotations.NullMarked;
