// What is pressed and is lower than it has to be: buttons, inputs, and links that stand by themselves.
(least) => {
  const links = "nav a, .index a, .faces a, .tally a, .kinds a";
  const inputs = "select, textarea, label.box, input:not([type=hidden]):not([type=checkbox]):not([type=radio])";
  return [...document.querySelectorAll(`button, .button, summary, ${links}, ${inputs}`)]
    .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < least - 0.5)
    .map((one) => one.outerHTML.slice(0, 120));
};
