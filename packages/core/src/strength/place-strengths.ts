/** Where a joint can fail first: at the edge of the channel, or at one of the places of its host. */
export type FailurePlace = string;
