/** The order in which the fixings of a face are set out: fitting by fitting, and along each from the datum. */

/** What is still planned on a face, in that order. */
export function toSetOut(site, face) {
  const fittings = new Map(site.all("fitting").map(({ id }, at) => [id, at]));
  const rank = ({ values }) => [fittings.get(values.fitting) ?? Infinity, values.x_mm, values.z_mm];
  return site
    .fixingsOn(face)
    .filter(({ values }) => values.state === "planned")
    .sort((one, other) => {
      const [mine, theirs] = [rank(one), rank(other)];
      return mine.map((figure, at) => figure - theirs[at]).find((step) => step) ?? 0;
    });
}

/** The one that comes after another, which may be fitted by now; from the beginning again after the last; undefined: none. */
export function nextToSetOut(site, face, after = null) {
  const planned = toSetOut(site, face);
  if (!after) return planned[0];
  const withIt = planned.includes(after) ? planned : toSetOut(
    { ...site, fixingsOn: () => [...planned, { ...after, values: { ...after.values, state: "planned" } }] },
    face,
  );
  const at = withIt.findIndex(({ id }) => id === after.id);
  return [...withIt.slice(at + 1), ...withIt.slice(0, at)].at(0);
}
