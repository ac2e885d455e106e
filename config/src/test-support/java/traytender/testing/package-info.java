/** What tests of several modules share: real servers on this machine. A source folder of each module's tests, in no jar. */
@NullMarked
package traytender.testing;

import org.jspecify.annotations.NullMarked;
