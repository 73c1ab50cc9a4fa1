import { ErrorBoundary, LocationProvider, lazy, Route, Router } from "preact-iso";
import { startTheme } from "./look/theme";
import "./look/fonts.css";
import "./look/tokens.css";
import "./look/base.css";
import { useEffect, useState } from "preact/hooks";
import { Bikes } from "./screens/bikes/bikes";
import { Failed, NotFound } from "./screens/shell/failed";

const NewBike = lazy(() => import("./screens/bikes/new-bike").then((m) => m.NewBike));
const First = lazy(() => import("./screens/bikes/first").then((m) => m.First));
const Share = lazy(() => import("./screens/bikes/share").then((m) => m.Share));
const Now = lazy(() => import("./screens/bike/now").then((m) => m.Now));
const Details = lazy(() => import("./screens/bike/details").then((m) => m.Details));
const Log = lazy(() => import("./screens/bike/log").then((m) => m.Log));
const Checks = lazy(() => import("./screens/bike/checks").then((m) => m.Checks));
const Adjust = lazy(() => import("./screens/bike/adjust").then((m) => m.Adjust));
const Measure = lazy(() => import("./screens/bike/measure").then((m) => m.Measure));
const Ride = lazy(() => import("./screens/bike/ride").then((m) => m.Ride));
const Note = lazy(() => import("./screens/bike/note").then((m) => m.Note));
const Fault = lazy(() => import("./screens/bike/fault").then((m) => m.Fault));
const CheckRun = lazy(() => import("./screens/check/check-run").then((m) => m.CheckRun));
const Build = lazy(() => import("./screens/build/build").then((m) => m.Build));
const Parts = lazy(() => import("./screens/build/parts").then((m) => m.Parts));
const PartForm = lazy(() => import("./screens/build/part-form").then((m) => m.PartForm));
const Import = lazy(() => import("./screens/build/import").then((m) => m.Import));
const OwnInterfaces = lazy(() => import("./screens/build/own-interfaces").then((m) => m.OwnInterfaces));
const Fits = lazy(() => import("./screens/build/fits").then((m) => m.Fits));
const Weigh = lazy(() => import("./screens/build/weigh").then((m) => m.Weigh));
const Cut = lazy(() => import("./screens/build/cut").then((m) => m.Cut));
const Torques = lazy(() => import("./screens/build/torque").then((m) => m.Torques));
const Joint = lazy(() => import("./screens/build/joint").then((m) => m.Joint));
const PlanEdit = lazy(() => import("./screens/build/plan-edit").then((m) => m.PlanEdit));
const HandOver = lazy(() => import("./screens/build/hand-over").then((m) => m.HandOver));
const Position = lazy(() => import("./screens/position/position").then((m) => m.Position));
const Book = lazy(() => import("./screens/checks/book").then((m) => m.Book));
const EditCheck = lazy(() => import("./screens/checks/edit").then((m) => m.EditCheck));
const Rider = lazy(() => import("./screens/bike/rider").then((m) => m.Rider));
const Events = lazy(() => import("./screens/lineup/events").then((m) => m.Events));
const Event = lazy(() => import("./screens/lineup/event").then((m) => m.Event));
const StartList = lazy(() => import("./screens/lineup/start-list").then((m) => m.StartList));
const Labels = lazy(() => import("./screens/lineup/labels").then((m) => m.Labels));
const PlateSheet = lazy(() => import("./screens/lineup/plate").then((m) => m.PlateSheet));
const Baselines = lazy(() => import("./screens/bike/baselines").then((m) => m.Baselines));
const SeasonSheet = lazy(() => import("./screens/bike/season").then((m) => m.SeasonSheet));
const Wear = lazy(() => import("./screens/bike/wear").then((m) => m.Wear));
const MovePart = lazy(() => import("./screens/bike/part-run").then((m) => m.MovePart));
const DueSheet = lazy(() => import("./screens/due/due").then((m) => m.DueSheet));
const Intervals = lazy(() => import("./screens/due/intervals").then((m) => m.Intervals));
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
          <Route path="/first" component={First} />
          <Route path="/share" component={Share} />
          <Route path="/bike/:id" component={Now} />
          <Route path="/bike/:id/details" component={Details} />
          <Route path="/bike/:id/log" component={Log} />
          <Route path="/bike/:id/checks" component={Checks} />
          <Route path="/bike/:id/check/:check" component={CheckRun} />
          <Route path="/bike/:id/adjust" component={Adjust} />
          <Route path="/bike/:id/measure" component={Measure} />
          <Route path="/bike/:id/ride" component={Ride} />
          <Route path="/bike/:id/note" component={Note} />
          <Route path="/bike/:id/fault" component={Fault} />
          <Route path="/bike/:id/build" component={Build} />
          <Route path="/bike/:id/parts" component={Parts} />
          <Route path="/bike/:id/part/:part" component={PartForm} />
          <Route path="/bike/:id/import" component={Import} />
          <Route path="/bike/:id/interfaces" component={OwnInterfaces} />
          <Route path="/bike/:id/fits" component={Fits} />
          <Route path="/bike/:id/weigh" component={Weigh} />
          <Route path="/bike/:id/cut/:what" component={Cut} />
          <Route path="/bike/:id/torque" component={Torques} />
          <Route path="/bike/:id/torque/:joint" component={Joint} />
          <Route path="/bike/:id/plan" component={PlanEdit} />
          <Route path="/bike/:id/hand-over" component={HandOver} />
          <Route path="/bike/:id/position" component={Position} />
          <Route path="/bike/:id/rider" component={Rider} />
          <Route path="/checks" component={Book} />
          <Route path="/checks/:check" component={EditCheck} />
          <Route path="/lineup" component={Events} />
          <Route path="/lineup/:id" component={Event} />
          <Route path="/lineup/:id/list" component={StartList} />
          <Route path="/lineup/:id/labels" component={Labels} />
          <Route path="/lineup/:id/plate/:plate" component={PlateSheet} />
          <Route path="/lineup/:id/plate/:plate/check/:check" component={CheckRun} />
          <Route path="/bike/:id/baselines" component={Baselines} />
          <Route path="/bike/:id/season/:setting" component={SeasonSheet} />
          <Route path="/bike/:id/wear" component={Wear} />
          <Route path="/bike/:id/move/:part" component={MovePart} />
          <Route path="/due" component={DueSheet} />
          <Route path="/due/intervals" component={Intervals} />
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
