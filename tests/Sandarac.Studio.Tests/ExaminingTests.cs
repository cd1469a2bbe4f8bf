using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class ExaminingTests(PostgresServer server)
{
    private static readonly ExamineOptions Measured = new() { Title = "Ferry at low water", HeightMm = 100, WidthMm = 117.3, UserName = "test", CornersOnly = true };

    private static string Photographs(TemporaryStudio home) => Path.Combine(home.Root, "photographs");

    private static Examination Examine(TemporaryStudio home, ExamineOptions? options = null) =>
        new Examining(home.Studio).Examine(Photographs(home), options ?? Measured, cancellation: TestContext.Current.CancellationToken);

    [Theory, EachDatabase]
    public void A_folder_becomes_an_aligned_painting_with_readings_and_a_document(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        SmallPhotographs.WriteSet(Photographs(home));
        var examination = Examine(home);
        Assert.Empty(examination.Refusals);
        Assert.Equal(["IR", "UVL", "VIS"], examination.Photographs.Select(p => p.Light));
        Assert.All(examination.Photographs, p => Assert.Equal(Verdict.Aligned, p.Alignments.InForce()!.Verdict));
        Assert.Contains(examination.Runs, r => r is { ReadingId: "false-colour", State: RunState.Done, Rasters.Count: 1 });
        Assert.Equal(3, examination.Runs.Count(r => r is { ReadingId: "photograph-quality", State: RunState.Done }));
        Assert.StartsWith("<!doctype html>", File.ReadAllText(examination.DocumentPath), StringComparison.Ordinal);
        Assert.True(new Checking(home.Studio).Check(cancellation: TestContext.Current.CancellationToken).IsClean);
        // All plane images share one grid.
        Assert.Single(examination.Photographs.Select(p => (p.Alignments.InForce()!.PlaneImage!.Width, p.Alignments.InForce()!.PlaneImage!.Height)).Distinct());
    }

    [Fact]
    public void Corners_are_found_where_they_were_drawn()
    {
        using var home = new TemporaryStudio();
        SmallPhotographs.WriteSet(Photographs(home));
        foreach (var photograph in Examine(home).Photographs)
        {
            var map = photograph.Alignments.InForce()!.Map!;
            Point2[] face = [new(0, 0), new(117.3, 0), new(117.3, 100), new(0, 100)];
            Assert.All(face.Zip(SmallPhotographs.Corners), pair => Assert.True(map.ToPixel(pair.First).DistanceTo(pair.Second) < 1.5, $"{photograph.FileName}: {map.ToPixel(pair.First)} for {pair.Second}"));
        }
    }

    [Theory, EachDatabase]
    public void Examining_again_changes_nothing_and_a_new_photograph_joins(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        SmallPhotographs.WriteSet(Photographs(home));
        var first = Examine(home);
        var before = Objects(home);
        home.Reopen();
        var second = Examine(home);
        Assert.Equal(first.Painting.Id, second.Painting.Id);
        Assert.Equal(3, second.AlreadyThere.Count);
        Assert.Equal(first.Runs.Select(r => r.Id), second.Runs.Select(r => r.Id));
        Assert.Equal(before, Objects(home));
        SmallPhotographs.Write(Path.Combine(Photographs(home), "RAK_W_az270_el15.tif"), 3, 77);
        var third = Examine(home);
        Assert.Equal((4, "W", 270.0), (third.Photographs.Count, third.Photographs[1].LightSide, third.Photographs[1].AzimuthDeg));
    }

    [Fact]
    public void Results_do_not_depend_on_threads()
    {
        string[] Hashes(int threads)
        {
            using var home = new TemporaryStudio();
            SmallPhotographs.WriteSet(Photographs(home));
            var e = Examine(home, Measured with { Threads = threads });
            return [.. e.Photographs.Select(p => p.Alignments.InForce()!.PlaneImage!.Sha256), .. e.Runs.SelectMany(r => r.Rasters.Select(x => x.Pyramid.Sha256))];
        }
        Assert.Equal(Hashes(1), Hashes(5));
    }

    [Fact]
    public void A_copy_is_noticed_and_a_bad_file_is_explained_while_the_others_go_on()
    {
        using var home = new TemporaryStudio();
        var folder = Photographs(home);
        SmallPhotographs.WriteSet(folder);
        File.Copy(Path.Combine(folder, "VIS_01.tif"), Path.Combine(folder, "VIS_copy.tif"));
        File.WriteAllBytes(Path.Combine(folder, "UVL_02.tif"), File.ReadAllBytes(Path.Combine(folder, "UVL_01.tif"))[..5000]);
        File.WriteAllText(Path.Combine(folder, "IR_text.tif"), "not an image");
        File.WriteAllBytes(Path.Combine(folder, "empty.tif"), []);
        File.WriteAllText(Path.Combine(folder, ".hidden.tif"), "hidden");
        File.WriteAllText(Path.Combine(folder, "UVL\\..\\up.tif"), "escape");
        File.CreateSymbolicLink(Path.Combine(folder, "VIS_link.tif"), "/etc/hostname");
        Directory.CreateSymbolicLink(Path.Combine(folder, "elsewhere"), "/etc");
        var examination = Examine(home);
        Assert.Equal(3, examination.Photographs.Count);
        Assert.Equal(["VIS_copy.tif (the same file as VIS_01.tif)"], examination.AlreadyThere);
        Assert.Equal(["IR_text.tif", "UVL\\..\\up.tif", "UVL_02.tif", "VIS_link.tif", "elsewhere", "empty.tif"], examination.Refusals.Select(r => r.File).Order(StringComparer.Ordinal));
        Assert.All(examination.Refusals, r => Assert.True(r.Message.Length > 10 && r.Remedy.Length > 5));
        Assert.True(new Checking(home.Studio).Check(cancellation: TestContext.Current.CancellationToken).IsClean);
    }

    [Theory, EachDatabase]
    public void A_folder_of_nothing_but_bad_files_leaves_the_studio_unchanged(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var folder = Directory.CreateDirectory(Photographs(home)).FullName;
        File.WriteAllText(Path.Combine(folder, "VIS_01.tif"), "not an image");
        File.WriteAllBytes(Path.Combine(folder, "IR_01.png"), [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]);
        var problem = Assert.Throws<InputProblem>(() => Examine(home));
        Assert.Equal("no-photographs", problem.Code);
        Assert.Contains("VIS_01.tif", problem.Message, StringComparison.Ordinal);
        Assert.Empty(Objects(home));
        Assert.Empty(Directory.GetFiles(Path.Combine(home.Folder, "incoming")));
        using var db = home.Studio.CreateDb();
        Assert.Equal((0, 0, 0), (db.Paintings.Count(), db.Photographs.Count(), db.Runs.Count()));
    }

    [Fact]
    public void Cropped_photographs_are_taken_as_filling_the_frame_and_said_to_be_uncertain()
    {
        using var home = new TemporaryStudio();
        var folder = Directory.CreateDirectory(Photographs(home)).FullName;
        SmallPhotographs.WriteCropped(Path.Combine(folder, "VIS.tif"), 360, 300, 3, 1);
        SmallPhotographs.WriteCropped(Path.Combine(folder, "IR.tif"), 180, 150, 1, 2);
        SmallPhotographs.WriteCropped(Path.Combine(folder, "UVL.tif"), 300, 200, 3, 3);
        // Two frames of one light and size: tiles rather than two croppings, although their proportions agree.
        SmallPhotographs.WriteCropped(Path.Combine(folder, "IR_left.tif"), 240, 200, 3, 4);
        SmallPhotographs.WriteCropped(Path.Combine(folder, "IR_rest.tif"), 240, 200, 3, 5);
        var examination = Examine(home, new ExamineOptions { Title = "cropped", CornersOnly = true });
        var byName = examination.Photographs.ToDictionary(p => p.FileName, p => p.Alignments.InForce()!);
        Assert.Equal((Verdict.Uncertain, Verdict.Uncertain, Verdict.NotAligned), (byName["VIS.tif"].Verdict, byName["IR.tif"].Verdict, byName["UVL.tif"].Verdict));
        Assert.Contains("filling the frame", byName["IR.tif"].Reason, StringComparison.Ordinal);
        Assert.Contains("proportions", byName["UVL.tif"].Reason, StringComparison.Ordinal);
        foreach (var tile in (string[])["IR_left.tif", "IR_rest.tif"])
        {
            Assert.True(byName[tile].Verdict == Verdict.NotAligned, $"{byName[tile].Reason} {examination.Photographs.First(p => p.FileName == tile).LightSide}");
            Assert.Contains("one of 2 of the same light and size", byName[tile].Reason, StringComparison.Ordinal);
        }
        Assert.Equal((500.0, ScaleOrigin.Assumed), (examination.Painting.WidthMm, examination.Painting.SizeOrigin));
        Assert.Contains(examination.Warnings, w => w.Code == "size-assumed");
        Assert.Contains(examination.Runs, r => r is { ReadingId: "false-colour", State: RunState.Done });
    }

    [Fact]
    public void Without_a_stated_size_the_resolution_tags_give_it_and_a_later_statement_aligns_again()
    {
        using var home = new TemporaryStudio();
        Directory.CreateDirectory(Photographs(home));
        SmallPhotographs.Write(Path.Combine(Photographs(home), "VIS_01.tif"), 3, 1, pixelsPerInch: 127);
        var first = Examine(home, new ExamineOptions { CornersOnly = true });
        // 127 pixels per inch are 5 a millimetre; the face's sides are about 319 and 272 pixels long.
        Assert.Equal(ScaleOrigin.Metadata, first.Painting.SizeOrigin);
        Assert.InRange(first.Painting.WidthMm, 63.5, 64.2);
        var second = Examine(home);
        Assert.Equal((117.3, 100.0, ScaleOrigin.Measured), (second.Painting.WidthMm, second.Painting.HeightMm, second.Painting.SizeOrigin));
        var alignments = second.Photographs[0].Alignments;
        Assert.Equal(2, alignments.Count);
        Assert.Equal(alignments.InForce()!.Id, alignments.MinBy(a => a.Version)!.SupersededBy);
    }

    [Fact]
    public void Photographs_csv_states_what_nothing_else_says()
    {
        using var home = new TemporaryStudio();
        Directory.CreateDirectory(Photographs(home));
        SmallPhotographs.Write(Path.Combine(Photographs(home), "P1010007.tif"), 1, 1);
        File.WriteAllText(Path.Combine(Photographs(home), "photographs.csv"), "file,light,subject\nP1010007.tif,IRR,painting\nmissing.tif,VIS,painting\n");
        var examination = Examine(home);
        Assert.Equal(("IRR", Analysis.Lights.Confidence.Certain), (examination.Photographs[0].Light, examination.Photographs[0].LightConfidence));
        Assert.Contains(examination.Warnings, w => w.Code == "list-missing-file");
    }

    [Fact]
    public void A_studio_inside_the_folder_is_not_examined()
    {
        using var home = new TemporaryStudio();
        SmallPhotographs.WriteSet(home.Root);
        var examination = new Examining(home.Studio).Examine(home.Root, Measured, cancellation: TestContext.Current.CancellationToken);
        examination = new Examining(home.Studio).Examine(home.Root, Measured, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(3, examination.Photographs.Count);
    }

    private static string[] Objects(TemporaryStudio home) =>
        [.. Directory.GetFiles(Path.Combine(home.Folder, "objects"), "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
}
