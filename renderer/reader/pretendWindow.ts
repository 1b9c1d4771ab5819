// Must be loaded before the PDF library. Without a `window` its worker half would take this thread's messages for
// its own, and its painting half asks one for animation frames, which a thread without a screen has no use for.
Object.assign(globalThis, {
  window: {
    requestAnimationFrame: (task: () => void) => setTimeout(task, 0),
    cancelAnimationFrame: (task: number) => clearTimeout(task),
  },
});
