using Sandarac.Imaging;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class RunTests(PostgresServer server)
{
    private static readonly Dictionary<string, string> Defaults = [];

    private static (Examination Examination, RunRequest Request) Examined(TemporaryStudio home)
    {
        SmallPhotographs.WriteSet(Path.Combine(home.Root, "photographs"));
        var examination = new Examining(home.Studio).Examine(Path.Combine(home.Root, "photographs"), new ExamineOptions { HeightMm = 100, WidthMm = 117, CornersOnly = true });
        var vis = examination.Photographs.Single(p => p.Light == "VIS");
        return (examination, new RunRequest(vis.PaintingId, "photograph-quality", new Dictionary<string, string> { ["warn-soft"] = "30" },
            new Dictionary<string, IReadOnlyList<Guid>> { ["photograph"] = [vis.Id] }, "test"));
    }

    [Fact]
    public void A_run_repeats_to_the_last_bit_and_the_same_request_finds_it_again()
    {
        using var home = new TemporaryStudio();
        var (examination, request) = Examined(home);
        var running = new Running(home.Studio);
        foreach (var run in examination.Runs)
        {
            var again = running.Rerun(run.Id, cancellation: TestContext.Current.CancellationToken);
            Assert.True(again.FiguresEqual && again.RastersEqual, $"{run.ReadingId}: {string.Join("; ", again.Differences)}");
        }
        var queued = running.Queue(request);
        Assert.Equal((RunState.Queued, "30"), (queued.State, queued.Parameters["warn-soft"]));
        Assert.Equal(queued.Id, running.Queue(request).Id);
        Assert.Equal(RunState.Done, running.Execute(queued.Id, cancellation: TestContext.Current.CancellationToken).State);
        Assert.Equal(queued.Id, running.Queue(request).Id);
        Assert.NotEqual(queued.Id, running.Queue(request with { Parameters = Defaults }).Id);
        Assert.Empty(Directory.GetFiles(Path.Combine(home.Folder, "incoming")));
    }

    [Fact]
    public void Alignments_repeat_to_the_last_bit_and_a_changed_one_is_told()
    {
        var cancellation = TestContext.Current.CancellationToken;
        using var home = new TemporaryStudio();
        SmallPhotographs.WriteSet(Path.Combine(home.Root, "photographs"));
        var painting = new Examining(home.Studio).Examine(Path.Combine(home.Root, "photographs"), new ExamineOptions { HeightMm = 100, WidthMm = 117 }, cancellation: cancellation).Painting.Id;
        using var db = home.Studio.CreateDb();
        var runs = db.Runs.Where(r => r.PaintingId == painting && r.Kind == RunKind.Aligning).ToList();
        Assert.Contains(runs, r => AlignmentPlan.Of(r).Match is not null);
        foreach (var run in runs)
        {
            var again = new Running(home.Studio).Rerun(run.Id, cancellation: cancellation);
            Assert.True(again.FiguresEqual && again.RastersEqual, $"{AlignmentPlan.Of(run).Method}: {string.Join("; ", again.Differences)}");
        }
        var aligned = db.Alignments.First(a => a.PlaneImage != null);
        aligned.PlaneImage = aligned.PlaneImage! with { Sha256 = new string('0', 64) };
        db.SaveChanges();
        Assert.Equal(["the plane image differs"], new Running(home.Studio).Rerun(aligned.RunId!.Value, cancellation: cancellation).Differences);
    }

    [Fact]
    public void A_stored_figure_that_was_changed_is_told_by_repeating()
    {
        using var home = new TemporaryStudio();
        var (examination, _) = Examined(home);
        var id = examination.Runs.First(r => r.ReadingId == "photograph-quality").Id;
        using (var db = home.Studio.CreateDb())
        {
            var run = db.Runs.Single(r => r.Id == id);
            run.Figures = [run.Figures[0] with { Value = -1 }, .. run.Figures.Skip(1)];
            db.SaveChanges();
        }
        var again = new Running(home.Studio).Rerun(id, cancellation: TestContext.Current.CancellationToken);
        Assert.False(again.FiguresEqual);
        Assert.Contains("-1", Assert.Single(again.Differences), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public void Invalid_requests_are_refused_and_nothing_is_queued(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (_, request) = Examined(home);
        var running = new Running(home.Studio);
        int Runs()
        {
            using var db = home.Studio.CreateDb();
            return db.Runs.Count();
        }
        var before = Runs();
        Assert.Equal("unknown-reading", Assert.Throws<InputProblem>(() => running.Queue(request with { ReadingId = "x" })).Code);
        Assert.Equal("unknown-parameter", Assert.Throws<InputProblem>(() => running.Queue(request with { Parameters = new Dictionary<string, string> { ["warn-sofd"] = "1" } })).Code);
        Assert.Equal("unknown-photograph", Assert.Throws<InputProblem>(() => running.Queue(request with { Inputs = new Dictionary<string, IReadOnlyList<Guid>> { ["photograph"] = [Guid.NewGuid()] } })).Code);
        Assert.Equal("input-count", Assert.Throws<InputProblem>(() => running.Queue(request with { Inputs = new Dictionary<string, IReadOnlyList<Guid>>() })).Code);
        Assert.Equal("unknown-painting", Assert.Throws<InputProblem>(() => running.Queue(request with { PaintingId = Guid.NewGuid() })).Code);
        Assert.Equal(before, Runs());
    }

    [Theory, EachDatabase]
    public void A_cancelled_run_leaves_nothing_and_can_be_asked_for_again(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (_, request) = Examined(home);
        var running = new Running(home.Studio);
        var waiting = running.Queue(request);
        running.Cancel(waiting.Id);
        Assert.Equal(RunState.Cancelled, running.Execute(waiting.Id, cancellation: TestContext.Current.CancellationToken).State);
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var second = running.Queue(request);
        Assert.NotEqual(waiting.Id, second.Id);
        var interrupted = running.Execute(second.Id, cancellation: stop.Token);
        Assert.Equal((RunState.Interrupted, 0, 0), (interrupted.State, interrupted.Figures.Count, interrupted.Rasters.Count));
        Assert.Equal(RunState.Done, running.Execute(second.Id, cancellation: TestContext.Current.CancellationToken).State);
    }

    [Fact]
    public void A_run_that_fails_says_why_and_keeps_nothing()
    {
        using var home = new TemporaryStudio();
        var (examination, request) = Examined(home);
        var running = new Running(home.Studio);
        var run = running.Queue(request);
        File.Delete(home.Studio.Objects.PathOf(examination.Photographs.Single(p => p.Light == "VIS").Sha256));
        var failed = running.Execute(run.Id, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal((RunState.Failed, "object-missing", 0), (failed.State, failed.Problem!.Code, failed.Figures.Count));
    }

    [Theory, EachDatabase]
    public async Task Queued_runs_are_carried_out_in_the_background_also_those_from_before_a_restart(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (examination, request) = Examined(home);
        var before = new Running(home.Studio).Queue(request);
        home.Reopen();
        using var host = new JobHost(home.Studio);
        var corners = SmallPhotographs.Corners;
        var byHand = new Aligning(home.Studio).QueueByHand(examination.Photographs[0].Id, corners, "test");
        host.Enqueue(byHand.Id);
        Assert.Equal(RunState.Done, (await Ended(home, before.Id)).State);
        Assert.Equal(RunState.Done, (await Ended(home, byHand.Id)).State);
        var alignment = new Aligning(home.Studio).InForce(examination.Photographs[0].Id)!;
        Assert.Equal(("corners-by-hand", 2, byHand.Id), (alignment.Method, alignment.Version, alignment.RunId));
        Assert.True(alignment.Map!.ToPixel(new Imaging.Geometry.Point2(0, 0)).DistanceTo(corners[0]) < 1e-6);
    }

    [Fact]
    public void Corners_in_a_wrong_order_are_refused()
    {
        using var home = new TemporaryStudio();
        var (examination, _) = Examined(home);
        Imaging.Geometry.Point2[] c = SmallPhotographs.Corners;
        var aligning = new Aligning(home.Studio);
        Assert.Equal("corners", Assert.Throws<InputProblem>(() => aligning.QueueByHand(examination.Photographs[0].Id, [c[0], c[3], c[2], c[1]], "test")).Code);
        Assert.Equal("corners", Assert.Throws<InputProblem>(() => aligning.QueueByHand(examination.Photographs[0].Id, [c[0], c[1], c[2]], "test")).Code);
        Assert.Equal("corners", Assert.Throws<InputProblem>(() => aligning.QueueByHand(examination.Photographs[0].Id, [c[0], c[1], c[2], new(double.NaN, 0)], "test")).Code);
    }

    private static async Task<Run> Ended(TemporaryStudio home, Guid id)
    {
        for (var i = 0; i < 600; i++)
        {
            var run = new Running(home.Studio).Find(id);
            if (run.State is not (RunState.Queued or RunState.Running)) return run;
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
        throw new TimeoutException("The run did not end within a minute.");
    }
}
