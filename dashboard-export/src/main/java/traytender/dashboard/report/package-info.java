/** Reports to keep or to print: the night's, as a page, as a table, as JSON and as PDF. Nothing is null unless marked. */
@NullMarked
package traytender.dashboard.report;

import org.jspecify.annotations.NullMarked;
