"""`make bench`: every figure a ratio to a baseline measured in the same run."""

from tests.bench import bench_app, bench_crowd, bench_fleet, bench_growth, bench_live, bench_log, bench_sync

bench_log.main()
bench_live.main()
bench_growth.main()
bench_crowd.main()
bench_app.main()
bench_fleet.main()
bench_sync.main()
