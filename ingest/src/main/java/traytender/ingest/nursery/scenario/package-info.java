/**
 * Made-up benches drawn by chance, each with one thing going wrong or nothing at all, written as site folders with the truth beside
 * them, to grade the rules by. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.nursery.scenario;

import org.jspecify.annotations.NullMarked;
