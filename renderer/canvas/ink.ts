// The inks of the two themes. Colour is spent on two things only: what is picked, and what is wrong.
export interface Ink {
  readonly paper: string;
  readonly line: string;
  readonly faint: string;
  readonly film: string;
  readonly filmEdge: string;
  readonly picked: string;
  readonly pickedFill: string;
  readonly wrong: string;
  readonly text: string;
  readonly halo: string;
}

export const INKS: Readonly<Record<'light' | 'dark', Ink>> = {
  light: {
    paper: '#fffefb',
    line: '#1b2327',
    faint: '#a3a8a6',
    film: 'rgba(70, 78, 80, 0.13)',
    filmEdge: '#5d686b',
    picked: '#0f6674',
    pickedFill: 'rgba(15, 102, 116, 0.24)',
    wrong: '#a8321f',
    text: '#333d41',
    halo: 'rgba(255, 254, 251, 0.86)',
  },
  dark: {
    paper: '#20262b',
    line: '#e6e4dc',
    faint: '#66717a',
    film: 'rgba(214, 220, 220, 0.14)',
    filmEdge: '#9aa5a9',
    picked: '#4db3c2',
    pickedFill: 'rgba(77, 179, 194, 0.3)',
    wrong: '#e0705c',
    text: '#cfd3d1',
    halo: 'rgba(32, 38, 43, 0.86)',
  },
};
