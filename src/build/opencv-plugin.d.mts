export function opencvPlugin(): import('vite').Plugin;
