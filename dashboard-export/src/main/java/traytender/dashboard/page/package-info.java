/**
 * The page and its JSON: what the bench knows, served over HTTP to the grower's browser and to scripts. Everything it says
 * it asks of {@link traytender.dashboard.page.BenchFacts}; it keeps no state of the bench of its own. Nothing is null unless
 * marked so.
 */
@NullMarked
package traytender.dashboard.page;

import org.jspecify.annotations.NullMarked;
