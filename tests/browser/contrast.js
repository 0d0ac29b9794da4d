// Every text on the page whose letters do not stand out 4.5 to 1 from what lies behind them (WCAG 2.2, 1.4.3).
() => {
  const luminance = (colour) => {
    const [r, g, b] = colour
      .match(/[\d.]+/g)
      .map((part) => Number(part) / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (one) => {
    for (let at = one; at; at = at.parentElement) {
      const colour = getComputedStyle(at).backgroundColor;
      if (!colour.startsWith("rgba(") || !colour.endsWith(" 0)")) return colour;
    }
    return "rgb(255, 255, 255)";
  };
  const holdsText = (one) => [...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim());
  return [...document.querySelectorAll("main *, header *, footer *")]
    .filter((one) => one.checkVisibility() && !one.closest("svg") && holdsText(one))
    .map((one) => {
      const [light, dark] = [getComputedStyle(one).color, behind(one)].map(luminance).sort((a, b) => b - a);
      return [(light + 0.05) / (dark + 0.05), one.outerHTML.slice(0, 100)];
    })
    .filter(([ratio]) => ratio < 4.5);
};
