/**
 * The {@code traytender} command: what each word on the command line does, what it prints and the status it ends with. The
 * only package that writes to standard output. Nothing is null unless marked.
 */
@NullMarked
package traytender.dashboard.command;

import org.jspecify.annotations.NullMarked;
