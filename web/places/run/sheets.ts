/** The views of a run beside its plan: fetched apart, so that the first page waits for the plan's alone. */
export { Allergens } from "./allergens.tsx";
export { ControlPoints } from "./control.tsx";
export { CostView } from "./cost.tsx";
export { FrontOfHouse } from "./front.tsx";
export { Guests } from "./guests.tsx";
export { Labels } from "./labels.tsx";
export { NutritionLabels } from "./nutrition.tsx";
export { Orders } from "./orders.tsx";
export { PrepLists } from "./prep.tsx";
export { PullList } from "./pull.tsx";
export { Seating } from "./seating.tsx";
