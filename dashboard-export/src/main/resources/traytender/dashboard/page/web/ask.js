// Questions to the program.

/** The answer to a question, as JSON; throws an Error with the program's own word when there is none. */
export async function ask(path, parameters = {}) {
  const query = new URLSearchParams(Object.entries(parameters).filter(([, value]) => value !== undefined && value !== null));
  const response = await fetch(`/api/v1/${path}${query.size ? `?${query}` : ""}`);
  if (response.status === 401) {
    location.assign("/login");
    throw new Error("log in first");
  }
  const answer = await response.json();
  if (!response.ok) throw new Error(answer.error ?? `the program answered ${response.status}`);
  return answer;
}

/** Readings of a probe as [[milliseconds, value], ...]; none where the program cannot tell. */
export async function readings(probe, from, to, points) {
  const answer = await ask("readings", {
    probe, from: new Date(from).toISOString(), to: new Date(to).toISOString(), points,
  });
  return answer.readings.map(([time, value]) => [Date.parse(time), value]);
}
