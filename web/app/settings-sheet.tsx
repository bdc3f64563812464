import { Button, Dialog, DialogTrigger, Heading, Popover } from "react-aria-components";
import { BookFile } from "../book/book-file.tsx";
import { Choice } from "../parts/choice.tsx";
import { TextEntry } from "../parts/text-entry.tsx";
import { useSettings } from "./settings.tsx";

/** How this tablet shows things. None of it changes the book. */
export function SettingsButton() {
  const { settings, change, say } = useSettings();
  return (
    <DialogTrigger>
      <Button className="place settings-button">{say("settings.title")}</Button>
      <Popover className="over sheet" placement="bottom end">
        <Dialog>
          <Heading slot="title" className="sheet-title">
            {say("settings.title")}
          </Heading>
          <Choice
            label={say("settings.units")}
            value={settings.units}
            onChange={(units) => change({ units })}
            options={[
              ["metric", say("settings.metric")],
              ["us", say("settings.us")],
            ]}
          />
          <Choice
            label={say("settings.degrees")}
            value={settings.degrees}
            onChange={(degrees) => change({ degrees })}
            options={[
              ["C", "°C"],
              ["F", "°F"],
            ]}
          />
          <Choice
            label={say("settings.clock")}
            value={settings.clock}
            onChange={(clock) => change({ clock })}
            options={[
              ["24", say("settings.24")],
              ["12", say("settings.12")],
            ]}
          />
          <Choice
            label={say("settings.ground")}
            value={settings.ground}
            onChange={(ground) => change({ ground })}
            options={[
              ["linen", say("settings.linen")],
              ["dark", say("settings.dark")],
            ]}
          />
          <TextEntry
            label={say("settings.name")}
            value={settings.name}
            onChange={(name) => change({ name })}
          />
          <BookFile />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
