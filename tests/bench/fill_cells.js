/** Fills the cells of a table as keys would, in one go: a large one takes minutes otherwise. Gives clicks, fields and characters. */
(text, [lines, byEnter]) => { const typedOf = TYPED_OF;
  let clicks = 0;
  const ditto = text.name !== "rows" && text.dataset.ditto !== undefined;
  const body = text.nextElementSibling.tBodies[0], more = text.nextElementSibling.nextElementSibling;
  const fields = [...text.nextElementSibling.tHead.rows[0].cells].slice(0, -1).map(() => 0), characters = [...fields];
  const shown = () => [...body.rows].map((row) => [...row.querySelectorAll("input")].map((cell) => cell.value));
  const type = (cell, words) => {
    cell.value = words;
    for (const told of ["input", "change"]) cell.dispatchEvent(new Event(told, { bubbles: true }));
  };
  const choices = JSON.parse(text.dataset.choices ?? "[]");
  // As little of each word as tells it from the others; all where it is none of them.
  const beginning = (words, known) => {
    if (!known?.length || !words) return words;
    const least = (word) => {
      if (!known.includes(word)) return word;
      let letters = 1;
      while (known.filter((one) => one.startsWith(word.slice(0, letters))).length > 1 && letters < word.length) letters += 1;
      return word.slice(0, letters);
    };
    return words.split(", ").map(least).join(",");
  };
  const begun = (line) => line.map((words, place) => beginning(words, choices[place]));
  const asMeant = () => shown().length === lines.length && lines.every((line, at) => line.every((words, place) => shown()[at][place] === words));
  if (text.dataset.parts && lines.length > 1 && !text.value.trim()) { // a row after the other, in the first cell
    const numeric = text.dataset.numeric === "yes";
    const wholeOf = (rows) => rows.map((line) => line.map((words) => words || "-").join(" ").replace(/( -)+$/, "")).join(numeric ? "/" : " / ");
    let [whole, letters, chosen] = [wholeOf(lines), ...typedOf(body.rows[0].querySelector("input"), wholeOf(lines))];
    if (!chosen) whole = wholeOf(lines.map(begun)), letters = whole.length;
    type(body.rows[0].querySelector("input"), whole);
    if (asMeant()) {
      fields[0] = 1;
      characters[0] = letters;
      return [chosen, fields, characters];
    }
    while (body.rows.length > 1) body.rows[body.rows.length - 1].remove();
    for (const cell of body.querySelectorAll("input")) cell.value = "";
  }
  const each = [...text.parentElement.querySelectorAll("button")].find((one) => one.textContent.startsWith("Add a row for each"));
  if (each && byEnter && !text.value.trim() && String(lines.map((line) => line[0])) === String(text.dataset.each.split("\n"))) {
    each.click();
    clicks += 1;
  }
  lines.forEach((line, at) => {
    if (body.rows.length <= at && byEnter) {
      const cells = [...body.rows[at - 1].querySelectorAll("input")];
      cells.at(-1).dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true, cancelable: true }));
    } else if (body.rows.length <= at) { more.click(); clicks += 1; }
    const inputs = [...body.rows[at].querySelectorAll("input")], whole = begun(line).filter(Boolean).join(" ");
    const before = inputs.map((cell) => cell.value);
    if (text.dataset.parts && line.filter((words, place) => words !== before[place]).length > 1) {
      inputs[0].value = whole; // as it is written, in the first cell
      inputs[0].dispatchEvent(new Event("change", { bubbles: true }));
      if (inputs.every((cell, place) => cell.value === (line[place] ?? ""))) {
        fields[0] += 1;
        characters[0] += whole.length;
        return;
      }
      inputs.forEach((cell, place) => { cell.value = before[place]; });
    }
    for (const { into: [first, ...others] } of JSON.parse(text.dataset.together ?? "[]")) {
      if (![first, ...others].every((place) => line[place] && before[place] !== line[place] && line[place] !== '"')) continue;
      const runs = [first, ...others].map((place) => line[place].split(" "));
      const things = runs[0].map((_, thing) => runs.map((run) => run[thing]));
      if (!runs.every((run) => run.length === runs[0].length)) continue;
      for (const between of [" ", ";", " / "]) {
        const whole = things.map((figures) => figures.join(between)).join("/");
        type(inputs[first], whole);
        if (!things.every((figures, thing) => figures.every((one, of) => inputs[[first, ...others][of]].value.split(" / ")[thing] === one))) {
          for (const place of [first, ...others]) inputs[place].value = before[place];
          continue;
        }
        fields[first] += 1;
        characters[first] += whole.length;
        for (const place of [first, ...others]) line[place] = inputs[place].value;
        break;
      }
    }
    line.forEach((meant, place) => {
      const cell = inputs[place], again = ditto && at && meant.length > 1 && meant === lines[at - 1][place];
      const whole = again ? '"' : meant, words = beginning(whole, choices[place]);
      const [letters, chosen] = words === whole ? typedOf(cell, words) : [words.length, 0];
      if (cell.value === words || cell.value === meant) return;
      cell.value = words;
      cell.dispatchEvent(new Event("input", { bubbles: true }));
      fields[place] += 1;
      characters[place] += letters;
      clicks += chosen;
      cell.dispatchEvent(new Event("change", { bubbles: true }));
    });
  });
  while (body.rows.length > Math.max(lines.length, 1)) {
    body.rows[body.rows.length - 1].querySelector("button").click();
    clicks += 1;
  }
  if (!lines.length) for (const cell of body.querySelectorAll("input")) if (cell.value) {
    cell.value = ""; cell.dispatchEvent(new Event("input", { bubbles: true })); fields[0] += 1;
  }
  return [clicks, fields, characters];
}
