declare module 'virtual:opencv' {
  const factory: import('./opencv.ts').CvFactory;
  export default factory;
}
