/** Few probes, many trays: which trays are judged by probes of their own, which from a like one, which not at all. Nothing is null unless marked. */
@org.jspecify.annotations.NullMarked
package traytender.rules.few;
