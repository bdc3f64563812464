import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/frame.css";
import "./styles/parts.css";
import "./styles/places.css";
import "./styles/heat.css";
import "./styles/another.css";
import "./styles/cost.css";
import "./styles/orders.css";
import "./styles/plan.css";
import "./styles/carry.css";
import "./styles/nutrition.css";
import "./styles/prep.css";
import "./styles/guests.css";
import "./styles/intake.css";
import "./styles/paste.css";
import "./styles/live.css";
import "./styles/board-now.css";
import "./styles/waits.css";
import "./styles/learn.css";
import "./styles/step-cooks.css";
import "./styles/suppliers.css";
import "./styles/stand-ins.css";
import "./styles/print.css";
import { App } from "./app/app.tsx";
import { fetchPlaces } from "./app/places.ts";

createRoot(document.getElementById("root")!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);

window.addEventListener("load", () => setTimeout(() => void fetchPlaces().catch(() => undefined), 1000));

if ("serviceWorker" in navigator && import.meta.env.PROD)
  window.addEventListener(
    "load",
    () => void navigator.serviceWorker.register("/sw.js").catch(() => undefined),
  );
