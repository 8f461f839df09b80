/** What a seat needs. */

/** Speech over noise at a seat, dB: below the first it is lost, the second hardly heard, the third worth knowing. Common practice, no source. */
export const SEAT_NOISE = { error: 5, warning: 10, hint: 15 } as const;

/**
 * Speech transmission index at a seat: below the first words are lost, the second they take effort, the third worth knowing. Source:
 * IEC 60268-16 and ISO 9921 for the scale; each limit lies under the classes there, since an index from reverberation and noise alone
 * comes out low (model choice).
 */
export const CLEAR = { error: 0.4, warning: 0.5, hint: 0.6 } as const;
