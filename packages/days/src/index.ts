export {
  dayOf,
  dayOfClock,
  LAST_DAY,
  sayDay,
  WEEKDAYS,
  weekdayOf,
  written,
} from './calendar/day-numbers.ts';
export { clock, type Moment } from './calendar/moments.ts';
export {
  BeyondCalendar,
  type DaysOff,
  type Shop,
  ShopCalendar,
  USUAL_SHOP,
} from './calendar/shop-days.ts';
export {
  isUncertain,
  type Likelihood,
  likelihood,
  likelyBy,
  MOST_DRAWS,
  USUAL_DRAWS,
} from './chance/likelihood.ts';
export { usualDaysSaid } from './chance/usual-days.ts';
export {
  bookCalled,
  bookOf,
  type CalendarOptions,
  calendarFile,
  eventsOf,
  type KeptEvent,
  readCalendarFile,
  sequenceAfter,
} from './file/calendar-file.ts';
export { type CriticalPath, criticalPath } from './plan/critical-path.ts';
export { Circle } from './plan/network.ts';
export { type Job, MAKER, type Operation, takesTime } from './plan/operation.ts';
export { delayed, type Placed, type Schedule, scheduleJobs } from './plan/schedule.ts';
export { type DayOfWork, workOn } from './plan/work-on.ts';
export { sameName } from './read/after.ts';
export { type BookPlan, type PlanSource, planBook } from './read/plan-book.ts';
export {
  type JobsInTurn,
  type JobsInTurnOrNot,
  type JobToDo,
  type JobTrouble,
  type PlannedJob,
  planJobs,
} from './read/plan-jobs.ts';
export {
  type DaysSource,
  MOST_HOURS,
  MOST_OPERATIONS,
  type OperationsReading,
  readOperations,
} from './read/read-operations.ts';
export {
  readDaysOff,
  readShop,
  readWeek,
  type ShopHoursSource,
  type ShopReading,
} from './read/read-shop.ts';
export { type Average, averageFor, averagesOf, hoursKept } from './worked/averages.ts';
export { type HoursReading, readHours, type Worked } from './worked/read-hours.ts';
export { type AllTaken, type Taken, takenOf } from './worked/taken.ts';
