@org.jspecify.annotations.NullMarked
package traytender.rules.few;
