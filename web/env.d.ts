interface ImportMeta {
  readonly env: { readonly PROD: boolean; readonly DEV: boolean };
}
declare module "*.css";
declare module "*?url" {
  const address: string;
  export default address;
}
