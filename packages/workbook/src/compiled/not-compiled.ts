/** Why a formula is left to the other engine: a word that stands in it. */
export class NotCompiled extends Error {}
