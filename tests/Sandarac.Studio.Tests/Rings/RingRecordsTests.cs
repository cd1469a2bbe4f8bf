using System.Text;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Analysis.Rings.Files;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;
using Sandarac.Studio.Rings;
using Sandarac.Studio.Rings.Drawing;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Rings;

public sealed class RingRecordsTests(PostgresServer server)
{
    private const string User = "marta";

    private static string CodeOf(Action act) => Assert.Throws<InputProblem>(act).Code;

    private static MemoryStream Text(string text) => new(Encoding.UTF8.GetBytes(text));

    private static FileStream Reference(string name) => File.OpenRead(Path.Combine(AppContext.BaseDirectory, "References", "Rings", name));

    /// <summary>The last 120 rings of a series of the public file, as a board without a date.</summary>
    private static string Board()
    {
        using var file = Reference("nc004.rwl");
        var series = RingFile.Parse("nc004.rwl", file).First(s => s.Id == "110201");
        return TucsonFile.Write([series.WithoutDates() with { Id = "BOARD1", Widths = [.. series.Widths.TakeLast(120)] }]);
    }

    [Theory, EachDatabase]
    public void A_board_is_imported_dated_accepted_and_exported(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var (painting, desk, references) = (home.AddPainting(), new RingDesk(home.Studio), new RingReferences(home.Studio));
        var board = desk.Import(painting.Id, "board.rwl", Text(Board()), User).Single();
        Assert.Null(board.Content.FirstYear);
        using var east = Reference("nc004.rwl");
        using var west = Reference("co021.rwl");
        Guid[] keys = [references.Add("East", "conifer", "public domain", "nc004.rwl", east, User).Id, references.Add("West", "", "public domain", "co021.rwl", west, User).Id];
        var dating = new RingDatingAsk(keys, RingTransformKind.BailliePilcher, TConvention.Pairs, MasterMean.Biweight, null, "northern-poland", "oak-16-17").Date(home.Studio, board.Id);
        // The collectors' own year of its last ring.
        Assert.Equal((DatingStrength.OneReference, 1983), (dating.Dating.Strength, dating.Dating.LastRing));
        Assert.Equal(["East"], dating.LeftOut);
        Assert.True(dating.Felling!.IsEarliestOnly);
        Assert.Equal((1983 + 9, 1983 + 9 + 2), (dating.Felling.Earliest, dating.Use!.Earliest));
        Assert.Contains("1983", DatingDrawing.Positions(dating.Dating.Verdicts[0]), StringComparison.Ordinal);
        var accepted = new RingSeriesRecords(home.Reopen()).Change(board.Id, 1, dating.Accepted(board.Content, User), User);
        Assert.Equal(1864, accepted.Content.FirstYear);
        Assert.Contains("East: t ", accepted.Content.DateBasis, StringComparison.Ordinal);
        var back = RingFile.Parse("out.rwl", Text(new RingDesk(home.Studio).Export(painting.Id))).Single();
        Assert.Equal((1864, 1983), (back.FirstYear, back.LastYear));
        Assert.Equal(board.Content.WidthsMm, back.Widths);
        new RingReferences(home.Studio).Withdraw(keys[0]);
        Assert.Equal(["West"], new RingReferences(home.Studio).All().Select(r => r.Name));
    }

    [Fact]
    public void What_is_wrong_is_refused_and_changes_nothing()
    {
        using var home = new TemporaryStudio();
        var (painting, desk, references, records) = (home.AddPainting(), new RingDesk(home.Studio), new RingReferences(home.Studio), new RingSeriesRecords(home.Studio));
        Assert.Equal("unknown-painting", CodeOf(() => desk.Import(Guid.NewGuid(), "b.rwl", Text(Board()), User)));
        Assert.Equal("rings-unmeasured", CodeOf(() => desk.Import(painting.Id, "b.rwl", Text("AAAA    1500   100  -999   110   999\n"), User)));
        Assert.Equal("rings-unended", CodeOf(() => desk.Import(painting.Id, "b.rwl", Text("AAAA    1500   100   110\n"), User)));
        Assert.Equal("no-ring-series", CodeOf(() => desk.Export(painting.Id)));
        Assert.Equal("reference-undated", CodeOf(() => references.Add("x", "", "y", "t.csv", Text("ring,A\n1,1\n2,2\n"), User)));
        Assert.Equal("reference-words", CodeOf(() => references.Add("x", "", "  ", "b.rwl", Text(Board()), User)));
        Assert.Equal("unknown-reference", CodeOf(() => references.Read([Guid.NewGuid()])));
        Assert.Equal("rings-too-large", CodeOf(() => references.Add("x", "", "y", "big.rwl", new MemoryStream(new byte[RingFile.LargestBytes + 1]), User)));
        Assert.Empty(Directory.GetFiles(Path.Combine(home.Folder, "incoming")));
        RingSeriesContent board = new() { Name = "A", WidthsMm = [1, 2, 1.5] };
        foreach (var (content, code) in new (RingSeriesContent, string)[]
        {
            (board with { Name = " " }, "name"), (board with { WidthsMm = [] }, "ring-widths"), (board with { WidthsMm = [1, -1] }, "ring-widths"), (board with { WidthsMm = [double.NaN] }, "ring-widths"),
            (board with { BoundariesMm = [0, 1, 3] }, "ring-boundaries"), (board with { BoundariesMm = [0, 3, 1, 4] }, "ring-boundaries"), (board with { SapwoodRings = 4 }, "sapwood-rings"), (board with { FirstYear = 0, DateBasis = "seen" }, "ring-year"),
            (board with { FirstYear = 1500 }, "ring-date-basis"), (board with { FirstYear = 2199, DateBasis = "seen" }, "ring-year"), (board with { PhotographId = Guid.NewGuid() }, "unknown-photograph"), (board with { RunId = Guid.NewGuid() }, "unknown-run"),
            (board with { Line = [new(0, 0)] }, "ring-line"),
        })
            Assert.Equal(code, CodeOf(() => records.Create(painting.Id, content, User)));
        records.Create(painting.Id, board, User);
        Assert.Equal("ring-name", CodeOf(() => records.Create(painting.Id, board, User)));
        Assert.Single(records.Of(painting.Id));
    }

    /// <summary>The record has no year 0, the comparison has one: the first ring in 2 before, the third in 1 after, is one of three.</summary>
    [Fact]
    public void Years_before_the_first_are_counted_without_a_year_0_in_the_record()
    {
        Assert.Equal((-1, -2, 1), (RingSeriesRecords.Recorded(0), RingSeriesRecords.Recorded(-1), RingSeriesRecords.Recorded(1)));
        Assert.Equal((-2, 1499), (RingSeriesRecords.FirstYear(1, 3), RingSeriesRecords.FirstYear(1500, 2)));
        Assert.Equal((-1, 1), RingSeriesRecords.Widths(new RingSeriesContent { FirstYear = -2, WidthsMm = [1, 1, 1] }) is var w ? (w.FirstYear, w.LastYear) : default);
    }

    [Fact]
    public void Corrected_boundaries_keep_the_lean_that_was_measured()
    {
        RingSeriesContent board = new() { Name = "A", BoundariesMm = [10, 12, 15, 16], WidthsMm = [1.8, 2.7, 0.9] };
        Assert.Equal([4.5, 0.9], RingBoundaries.Corrected(board, [10, 15, 16]).WidthsMm);
        Assert.Equal([1.8, 0.9, 1.8, 0.9, 0.9], RingBoundaries.Corrected(board, [16, 10, 12, 13, 15, 17]).WidthsMm);
        Assert.Equal("ring-boundaries", CodeOf(() => RingBoundaries.Corrected(board, [10])));
        Assert.Equal("ring-boundaries", CodeOf(() => RingBoundaries.Corrected(board, [10, 10, 12])));
        Assert.Equal("ring-boundaries", CodeOf(() => RingBoundaries.Corrected(board with { BoundariesMm = [] }, [10, 12])));
    }

    [Fact]
    public void Rings_of_a_run_become_a_series_with_its_picture()
    {
        using var home = new PlaneStudio(800, 200);
        home.Add("VIS", "edge.tif", 1, new Box(0, 0, 200, 50), PlaneStudio.MmPerPixel, (x, _, _) => 30000 + 100 * x);
        using var db = home.Studio.CreateDb();
        var photograph = db.Photographs.Single();
        Figure At(string name, double value) => new(name, value, 0.1);
        Run Measured(string mmPerPixel) => new()
        {
            PaintingId = home.Painting.Id, Kind = RunKind.Reading, ReadingId = RingDesk.ReadingId, ReadingVersion = 1, Parameters = new Dictionary<string, string> { ["from-x"] = "100", ["from-y"] = "50", ["to-x"] = "500", ["to-y"] = "50", ["mm-per-pixel"] = mmPerPixel },
            Inputs = [new RunSource("wood", photograph.Id, "edge.tif", photograph.Sha256, "VIS", 0.25, ScaleOrigin.Measured)], Key = new string('a', 64), SoftwareVersion = "0", UserName = User, State = RunState.Done, QueuedAt = DateTime.UtcNow,
            Figures = [At("ring-width", 2.5), At("ring-width", 5), At("boundary-x", 120), At("boundary-x", 130), At("boundary-x", 150), At("boundary-y", 50), At("boundary-y", 50), At("boundary-y", 50)],
        };
        var (run, ruled) = (Measured("0"), Measured("0.5"));
        db.AddRange(run, ruled);
        db.SaveChanges();
        var series = new RingDesk(home.Studio).TakeOver(home.Painting.Id, run.Id, "EDGE1", "board 1", User);
        Assert.Equal([5, 7.5, 12.5], series.Content.BoundariesMm);
        Assert.Equal([2.5, 5], series.Content.WidthsMm);
        var strip = RingStripPicture.Of(home.Studio, series)!;
        Assert.Equal((400, 4.0), (strip.Width, strip.PixelsPerMm));
        // What a person said of the scale goes before what the photograph says.
        var entered = new RingDesk(home.Studio).TakeOver(home.Painting.Id, ruled.Id, "EDGE2", "board 1", User);
        Assert.Equal([10, 15, 25], entered.Content.BoundariesMm);
        Assert.Contains("0.5 mm a pixel (entered)", entered.Content.Origin, StringComparison.Ordinal);
        Assert.Equal(2.0, RingStripPicture.Of(home.Studio, entered)!.PixelsPerMm);
        Assert.Equal("RIFF"u8.ToArray(), strip.Draw(home.Studio)[..4]);
        Assert.Equal("unknown-run", CodeOf(() => new RingDesk(home.Studio).TakeOver(home.Painting.Id, Guid.NewGuid(), "X", "", User)));
    }
}
