@org.jspecify.annotations.NullMarked
package traytender.dashboard.setup;
