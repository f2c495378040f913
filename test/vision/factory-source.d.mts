export function factorySource(umd: string): string;
