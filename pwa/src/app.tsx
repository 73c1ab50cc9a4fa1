import { ErrorBoundary, LocationProvider, lazy, Route, Router } from "preact-iso";
import { startTheme } from "./look/theme";
import "./look/fonts.css";
import "./look/tokens.css";
import "./look/base.css";
import { useEffect, useState } from "preact/hooks";
import { Bikes } from "./screens/bikes/bikes";
import { Failed, NotFound } from "./screens/shell/failed";

const NewBike = lazy(() => import("./screens/bikes/new-bike").then((m) => m.NewBike));
const Now = lazy(() => import("./screens/bike/now").then((m) => m.Now));
const Log = lazy(() => import("./screens/bike/log").then((m) => m.Log));
const Checks = lazy(() => import("./screens/bike/checks").then((m) => m.Checks));
const Adjust = lazy(() => import("./screens/bike/adjust").then((m) => m.Adjust));
const Measure = lazy(() => import("./screens/bike/measure").then((m) => m.Measure));
const Ride = lazy(() => import("./screens/bike/ride").then((m) => m.Ride));
const Note = lazy(() => import("./screens/bike/note").then((m) => m.Note));
const Fault = lazy(() => import("./screens/bike/fault").then((m) => m.Fault));
const CheckRun = lazy(() => import("./screens/check/check-run").then((m) => m.CheckRun));
const Bench = lazy(() => import("./screens/bench/bench").then((m) => m.Bench));
const Calculation = lazy(() => import("./screens/bench/calculation").then((m) => m.CalculationScreen));
const Device = lazy(() => import("./screens/device/device").then((m) => m.Device));
const Pair = lazy(() => import("./screens/device/pair").then((m) => m.Pair));

startTheme();

export function App() {
  const [failed, setFailed] = useState<Error | null>(null);
  useEffect(() => {
    const clear = () => setFailed(null);
    addEventListener("popstate", clear);
    return () => removeEventListener("popstate", clear);
  }, []);
  if (failed !== null) return <Failed error={failed} />;
  return (
    <LocationProvider>
      <ErrorBoundary onError={setFailed}>
        <Router>
          <Route path="/" component={Bikes} />
          <Route path="/new" component={NewBike} />
          <Route path="/bike/:id" component={Now} />
          <Route path="/bike/:id/log" component={Log} />
          <Route path="/bike/:id/checks" component={Checks} />
          <Route path="/bike/:id/check/:check" component={CheckRun} />
          <Route path="/bike/:id/adjust" component={Adjust} />
          <Route path="/bike/:id/measure" component={Measure} />
          <Route path="/bike/:id/ride" component={Ride} />
          <Route path="/bike/:id/note" component={Note} />
          <Route path="/bike/:id/fault" component={Fault} />
          <Route path="/bench" component={Bench} />
          <Route path="/bench/:calculation" component={Calculation} />
          <Route path="/device" component={Device} />
          <Route path="/pair" component={Pair} />
          <Route default component={NotFound} />
        </Router>
      </ErrorBoundary>
    </LocationProvider>
  );
}
