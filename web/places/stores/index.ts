export { AddPlace } from "./add.tsx";
export { NewSupplierPlace, PriceListPlace } from "./new-supplier.tsx";
export { StockPlace } from "./stock.tsx";
export { StoresPlace } from "./stores.tsx";
export { SupplierSheet } from "./supplier.tsx";
