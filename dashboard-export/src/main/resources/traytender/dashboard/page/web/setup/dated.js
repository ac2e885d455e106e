// Values of the site's file that may have dates.

/** Value in force of what may be a list of values with dates. */
export const newest = (dated) => (Array.isArray(dated) ? dated.at(-1) : dated);
