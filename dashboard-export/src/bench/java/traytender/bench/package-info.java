/**
 * What the program costs, each figure measured beside its limit in the same run: {@code mvn -q -DskipTests -Pbenchmarks verify}.
 * Nothing is null here unless it says so.
 */
package traytender.bench;
