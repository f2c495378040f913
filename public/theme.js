// Before the first paint: the paper that the visitor has chosen, and whether a logbook is kept here.
try {
  const theme = localStorage.getItem('dipwise:theme');
  if (theme === 'paper' || theme === 'night') document.documentElement.dataset.theme = theme;
  if (localStorage.getItem('dipwise:log-mark') !== null) document.documentElement.dataset.returning = '';
} catch {
  // Storage is denied: the device's own choice holds, and nothing is kept.
}
