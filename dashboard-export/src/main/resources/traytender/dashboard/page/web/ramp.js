// The colour of potting mix by its moisture: pale tan when dry, near-black brown when wet. Lightness alone tells it, so it
// reads the same to the colour-blind and on a grey print. Our own choice of colours; the page's tests hold its lightness to
// fall all the way and every label on it to a contrast of 4.5 (WCAG 2.2, 1.4.3).

export const STOPS = [
  [0.0, "#e6d3ae"],
  [0.25, "#c4a375"],
  [0.5, "#8f6a45"],
  [0.75, "#573c26"],
  [1.0, "#20150d"],
];

/** Relative luminance above which a label is black, below which it is white: there both have the same contrast. */
export const LABEL_SWITCH = 0.179;

const channels = (hex) => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));

/** Red, green and blue, 0 to 255, at a moisture; held at the ends. */
export function soilChannels(moisture) {
  const at = Math.min(1, Math.max(0, moisture));
  const above = Math.max(1, STOPS.findIndex(([stop]) => stop >= at));
  const [low, lowColour] = STOPS[above - 1];
  const [high, highColour] = STOPS[above];
  const share = (at - low) / (high - low);
  const from = channels(lowColour);
  return channels(highColour).map((value, i) => Math.round(from[i] + share * (value - from[i])));
}

export function soil(moisture) {
  return `rgb(${soilChannels(moisture).join(" ")})`;
}

/** Relative luminance as WCAG 2.2 defines it (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance). */
export function luminance(rgb) {
  const [r, g, b] = rgb.map((value) => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Black or white, whichever reads better on that moisture's colour. */
export function labelOn(moisture) {
  return luminance(soilChannels(moisture)) > LABEL_SWITCH ? "#000" : "#fff";
}
