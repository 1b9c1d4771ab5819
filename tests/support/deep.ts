// `npm run deep` runs the same laws on more cases.
export const DEEP = process.env['LAPSTRAKE_DEEP'] === '1';
