/** Reading the site folder, strictly, with the place of every error. Nothing is null unless marked. */
@NullMarked
package traytender.config.folder;

import org.jspecify.annotations.NullMarked;
