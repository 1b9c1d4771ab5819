// Constants of practice that several steps share.

/** A flat lap shorter than this is welded by hand, mm (common practice, no source). */
export const LEAST_MACHINE_LAP_MM = 1500;
