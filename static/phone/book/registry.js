/** The kinds of entry and their fields, as the server describes them once for desk and phone. */

/** @typedef {{name: string, type: string} & Record<string, any>} Field */
/** @typedef {{name: string, parent: string, fields: Field[], byName: Map<string, Field>, byAnyName: Map<string, Field>, numbered_by: any} & Record<string, any>} Kind */
/** @typedef {{kinds: Map<string, Kind>, rules: any} & Record<string, any>} Registry */
/** @typedef {{registry: Registry, notebook: any} & Record<string, any>} Context  what every page of the app is given */

const USUAL = { unit: "", choices: [], to: "", required: false, help: "", group: "", columns: [], listed: false, foremost: false, copied: true, ticked: false, retired: "", renamed_from: [], renamed_choices: [], retired_choices: [] };

/**
 * The registry with its kinds by name, parents before what belongs to them.
 * @param {any} plain  as the server makes it
 * @returns {Registry}
 */
export function registryOf(plain) {
  const kinds = new Map(plain.kinds.map((kind) => [kind.name, kindOf(kind)]));
  return { ...plain, kinds };
}

/** The registry of the page that stands here, which the server wrote into it. */
export function registryHere() {
  return registryOf(JSON.parse(document.getElementById("registry").textContent));
}

function kindOf(kind) {
  const fields = kind.fields.map(fieldOf);
  const byName = new Map(fields.map((field) => [field.name, field]));
  const before = fields.flatMap((field) => field.renamed_from.map((name) => [name, field]));
  return { ...kind, fields, byName, byAnyName: new Map([...before, ...byName]) };
}

/** One field with what the server left at its usual value. */
export function fieldOf(field) {
  return { ...USUAL, ...field, columns: field.columns.map(fieldOf) };
}
