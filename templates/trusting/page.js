// The code stands after the # of the address, which is sent to nobody; it goes along to the app.
for (const link of document.querySelectorAll("a[data-app]")) {
  const code = location.hash.slice(1);
  if (/^[0-9A-Z-]{8,12}$/.test(code)) link.href += `?join=${code}`;
}
