declare module 'virtual:opencv' {
  const factory: import('./opencv.ts').CvFactory;
  export default factory;
}

declare module 'virtual:opencv.wasm' {
  const url: string;
  export default url;
}
