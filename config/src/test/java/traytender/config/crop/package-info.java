@org.jspecify.annotations.NullMarked
package traytender.config.crop;
