/**
 * Other limits tried on stored readings and taken over: what would have been different, alert by alert, and the site's crop files
 * with every version they had. Nothing is null unless marked.
 */
@NullMarked
package traytender.dashboard.limits;

import org.jspecify.annotations.NullMarked;
