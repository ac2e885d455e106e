@org.jspecify.annotations.NullMarked
package traytender.config.site;
