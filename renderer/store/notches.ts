/** How many tight and bridged places the review lists and the stage points at. */
export const MOST_TIGHT = 4;
export const MOST_BRIDGES = 2;
