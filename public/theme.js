// Before the first paint: the paper that the visitor has chosen.
try {
  const theme = localStorage.getItem('dipwise:theme');
  if (theme === 'paper' || theme === 'night') document.documentElement.dataset.theme = theme;
} catch {
  // Storage is denied: the device's own choice holds.
}
