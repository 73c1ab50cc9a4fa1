/** Letting this phone in: the code comes with the link, the phone gets a name, one button. */

import { useEffect, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { login, PairingProblem, pair } from "../../store/pairing";
import { canPasskey, loginByPasskey, NoPasskey } from "../../store/passkeys";
import { identity } from "../../store/record";
import { WireProblem } from "../../store/wire";
import { words } from "../../words";
import { Page } from "../shell/page";
import { told } from "../writing";
import { team } from "./team-words";

export function Pair() {
  const { route } = useLocation();
  const [code, setCode] = useState("");
  const [linked, setLinked] = useState(false);
  const [name, setName] = useState(identity.value?.device.name ?? "");
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const [owner, setOwner] = useState<{ person: string; passphrase: string } | null>(null);
  useEffect(() => {
    const take = () => {
      const found = decodeURIComponent(location.hash.slice(1));
      if (found === "") return;
      setCode(found);
      setLinked(true);
      // The code is good once only and has no business in the history.
      history.replaceState(null, "", "/pair");
    };
    take();
    addEventListener("hashchange", take);
    return () => removeEventListener("hashchange", take);
  }, []);
  const enter = async (byKey = false) => {
    setBusy(true);
    setProblem(null);
    try {
      const who = byKey
        ? await loginByPasskey(name)
        : owner === null
          ? await pair(code, name)
          : await login(owner.person, owner.passphrase, name);
      told.value = { text: words.pair.welcome(who.person.name, who.workshop), entries: [] };
      route("/", true);
    } catch (error) {
      if (error instanceof NoPasskey) setProblem(team.passkey.none);
      else if (error instanceof PairingProblem) setProblem(error.message);
      else if (error instanceof WireProblem) setProblem(error.said);
      else throw error;
    } finally {
      setBusy(false);
    }
  };
  return (
    <Page place="device" title={words.pair.title} from={[{ href: "/device", text: words.places.device }]}>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void enter();
        }}
      >
        <p>{linked ? words.pair.help : words.pair.helpNoCode}</p>
        {linked || owner !== null ? null : <TextField label={words.pair.code} value={code} onChange={setCode} />}
        {owner === null ? null : (
          <>
            <TextField
              label={team.byPassphrase.person}
              value={owner.person}
              onChange={(person) => setOwner({ ...owner, person })}
            />
            <div class="text-field">
              <label for="passphrase">{team.byPassphrase.passphrase}</label>
              <input
                id="passphrase"
                class="text"
                type="password"
                autocomplete="current-password"
                value={owner.passphrase}
                onInput={(event) => setOwner({ ...owner, passphrase: event.currentTarget.value })}
              />
            </div>
          </>
        )}
        <TextField label={words.pair.name} value={name} onChange={setName} help={words.pair.nameHelp} />
        <Problem text={problem} />
        <button
          type="submit"
          class="button main wide"
          disabled={busy || name.trim() === "" || (owner === null ? code.trim() === "" : owner.passphrase === "")}
        >
          {words.pair.button}
        </button>
        {linked || owner !== null || !canPasskey() ? null : (
          <button type="button" class="button" disabled={busy || name.trim() === ""} onClick={() => void enter(true)}>
            {team.passkey.offer}
          </button>
        )}
        {linked || owner !== null ? null : (
          <button type="button" class="button" onClick={() => setOwner({ person: "", passphrase: "" })}>
            {team.byPassphrase.offer}
          </button>
        )}
      </form>
    </Page>
  );
}
