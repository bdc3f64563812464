import { RouterProvider } from "@tanstack/react-router";
import { HandsProvider } from "./hands.tsx";
import { router } from "./router.tsx";
import { SettingsProvider } from "./settings.tsx";

export function App() {
  return (
    <SettingsProvider>
      <HandsProvider>
        <RouterProvider router={router} />
      </HandsProvider>
    </SettingsProvider>
  );
}
