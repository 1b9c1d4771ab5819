// The library ships no types for its worker half.
declare module 'pdfjs-dist/legacy/build/pdf.worker.mjs' {
  export const WorkerMessageHandler: { initializeFromPort(port: object): void };
}
