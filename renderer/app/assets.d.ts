// Style sheets are imported for what they do, and hold nothing.
declare module '*.css';
