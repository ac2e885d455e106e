@org.jspecify.annotations.NullMarked
package traytender.config.folder;
