/** Pictures of what was found: taken here, shrunk here, sent apart later. */

import { useEffect, useState } from "preact/hooks";
import { Problem } from "../../controls/problem";
import { dropPhoto, keptPhoto, NoPicture, type Photo, takePhoto } from "../../store/photos";
import { words } from "../../words";

interface Props {
  about: string;
  photos: Photo[];
  asked: boolean;
  onChange: (photos: Photo[]) => void;
}

export function Shots({ about, photos, asked, onChange }: Props) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const add = async (file: File | undefined) => {
    if (file === undefined) return;
    setProblem(null);
    setBusy(true);
    try {
      const photo = await takePhoto(file);
      if (!photos.some((one) => one.sha256 === photo.sha256)) onChange([...photos, photo]);
    } catch (error) {
      setProblem(error instanceof NoPicture ? error.message : words.photo.noRoom);
    } finally {
      setBusy(false);
    }
  };
  return (
    <div class="shots">
      {photos.map((photo) => (
        <div key={photo.sha256} class="shot">
          <Shown sha256={photo.sha256} alt={words.photo.of(about)} />
          <button
            type="button"
            class="button small"
            onClick={() => {
              onChange(photos.filter((one) => one !== photo));
              void dropPhoto(photo.sha256);
            }}
          >
            {words.takeAway}
          </button>
        </div>
      ))}
      <label class="button small file">
        {busy ? words.photo.working : photos.length === 0 ? words.photo.add : words.photo.another}
        <input
          type="file"
          class="unseen"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => {
            const { currentTarget } = event;
            void add(currentTarget.files?.[0]);
            currentTarget.value = "";
          }}
        />
      </label>
      {asked && photos.length === 0 ? <p>{words.photo.wanted}</p> : null}
      <Problem text={problem} />
    </div>
  );
}

/** A photo, from this phone where it is kept, else from the server. */
export function Shown({ sha256, alt }: { sha256: string; alt: string }) {
  const [source, setSource] = useState<string | null>(null);
  const [missing, setMissing] = useState(false);
  useEffect(() => {
    let address: string | null = null;
    let over = false;
    void keptPhoto(sha256).then((blob) => {
      if (over) return;
      if (blob !== null) address = URL.createObjectURL(blob);
      setSource(address ?? `/api/photos/${sha256}`);
    });
    return () => {
      over = true;
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [sha256]);
  if (missing) return <p class="shot-missing">{words.photo.missing}</p>;
  return source === null ? null : <img class="shot-picture" src={source} alt={alt} onError={() => setMissing(true)} />;
}
