/** How old a shown plan is let grow. */

/** As time passes, what has not been done yet has to move: the plan is looked at again though nothing was logged. */
export const REPLAN_EVERY_MIN = 30

/** A plan still counts as the one that the app shows: it takes the app some minutes to make the next. */
export const SHOWN_FOR_MIN = REPLAN_EVERY_MIN + 5
