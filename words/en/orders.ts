/** Orders: how good they are, how sure, other ways, what is left. */
export const orders = {
  "orders.proved": "No cheaper orders can be made of these offers: proven.",
  "orders.gap": "Not proven cheapest: others could be cheaper by {gap} at most.",
  "orders.early":
    "Until the plan is there, everything is taken as needed on the first day; then the orders are made anew.",
  "orders.value": "What counts: {value}",
  "orders.value.what": "orders, with what is missing to least orders, less the worth of what is left",
  "orders.csv": "As a table (CSV)",
  "orders.csv.of": "Order to {supplier} as a table (CSV)",
  "orders.csv.supplier": "Supplier",
  "orders.csv.orderBy": "Order by",
  "orders.csv.deliver": "Delivered",
  "orders.csv.offer": "Offer",
  "orders.ways": "Other ways",
  "orders.ways.none": "No other offer could cover it alone.",
  "orders.ways.break": "{count} packs reach the price break.",
  "orders.ways.other": "{packs} × {pack} from {supplier}",
  "orders.ways.dearer": "{money} dearer in all",
  "orders.ways.same": "costs the same in all",
  "orders.instead.missing": "instead of {name}, which cannot be had in time",
  "orders.instead.cheaper": "instead of {name}, cheaper",
  "orders.instead.same": "It brings no allergen and no origin that {name} does not have.",
  "orders.byWeight": "sold by weight: the price is that of the usual pack",
  "orders.sure": "How sure",
  "orders.sure.chance": "Chance of having enough, %",
  "orders.sure.what":
    "Of each ingredient in each cut, as far as it is known how trim yields and covers vary. Normal distributions, independent, one lot a cut.",
  "orders.sure.nothing":
    "Nothing is known to vary in this service, so nothing is added beyond what preparations are made in excess. The log learns how yields vary; how far the covers may miss is written with the service.",
  "orders.sure.at": "Enough in {share}",
  "orders.sure.costs": "Orders",
  "orders.sure.more": "Against now",
  "orders.sure.later": "What it costs to be surer is worked out with the plan.",
  "orders.left": "Left over, with a worth of {worth}",
  "orders.left.what":
    "What keeps {days} days counts at {share} of its cheapest price, up to as much as was needed; what spoils counts nothing.",
  "orders.left.spoils": "does not keep",
} as const;
