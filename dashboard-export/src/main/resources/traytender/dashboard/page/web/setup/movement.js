// Which of many numbers moves: told apart from what each does by itself.

/** More than so many times its own unrest is a movement; our choice. */
const CLEAR = 4;
/** A number that has been quite still counts as restless by this share of it. */
const STILL = 0.004;

export class Movement {
  #seen = new Map();
  #from = null;

  /** Notes a number; the count of messages tells a new one from the same one looked at again. */
  see(key, value, count) {
    const one = this.#seen.get(key) ?? { count: -1, values: [], rest: null };
    if (one.count === count) return;
    one.count = count;
    one.values = [...one.values, value].slice(-20);
    this.#seen.set(key, one);
  }

  /** From now on the one that moves is looked for. */
  begin() {
    this.#from = true;
    for (const one of this.#seen.values()) {
      const middle = [...one.values].sort((a, b) => a - b)[Math.floor(one.values.length / 2)];
      const unrest = Math.max(...one.values) - Math.min(...one.values);
      one.rest = { middle, unrest: Math.max(unrest, Math.abs(middle) * STILL, 1e-6) };
    }
  }

  /** The key of the number that has moved most, beside its unrest; null while none has. */
  moving() {
    if (!this.#from) return null;
    let [found, most] = [null, CLEAR];
    for (const [key, one] of this.#seen) {
      if (!one.rest) continue;
      const moved = Math.abs(one.values.at(-1) - one.rest.middle) / one.rest.unrest;
      if (moved > most) [found, most] = [key, moved];
    }
    return found;
  }
}
