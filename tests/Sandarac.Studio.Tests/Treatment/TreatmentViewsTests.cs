using NetVips;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

/// <summary>Photographs of one place before, during and after, on a painting whose photographs lie on the plane by construction.</summary>
public sealed class TreatmentViewsTests : IDisposable
{
    private static readonly DateOnly Day = new(2026, 3, 2);

    private readonly PlaneStudio _home = new(800, 600);
    private readonly TreatmentStep _step;
    private readonly Guid _band;

    public TreatmentViewsTests()
    {
        _band = new Zones(_home.Studio).Create(_home.Painting.Id, new ZoneContent("band", "", "", TreatmentHome.Square(40, 30, 100, 50))).Id;
        _step = new TreatmentSteps(_home.Studio).Create(_home.Painting.Id, new TreatmentStepContent { Name = "Facing", Operation = "facing", UrgentReason = "A cup was about to fall.", Zones = [_band] }, "marta");
    }

    public void Dispose() => _home.Dispose();

    [Fact]
    public void Each_light_has_the_last_photograph_before_and_those_that_the_log_names_in_order()
    {
        var (before, last, first, other) = (Add("VIS", "VIS_01.tif", 0.25), Add("VIS", "VIS_03.tif", 0.4), Add("VIS", "VIS_02.tif", 0.3), Add("UVL", "UVL_01.tif", 0.25));
        Add("IRR", "IRR_01.tif", 0.25);
        Write(1, last);
        Write(0, first, other);
        var views = Views();
        Assert.Equal(["VIS"], views.Rows.Select(r => r.Light));
        Assert.Equal([(before, null), (first, Day), (last, Day.AddDays(1))], views.Rows[0].Views.Select(v => (v.Photograph.Id, v.Day)));
        // The band of 100 x 50 mm with a tenth of its longer side around it.
        Assert.Equal(new Box(30, 20, 120, 70), views.Place);
    }

    [Fact]
    public void Nothing_is_shown_where_no_entry_names_a_photograph_or_only_one_is_aligned()
    {
        Add("VIS", "VIS_01.tif", 0.25);
        Assert.Empty(Views().Rows);
        Write(0, Add("UVL", "UVL_01.tif", 0.25));
        Assert.Empty(Views().Rows);
    }

    /// <summary>Two photographs of different pixels and edges give the same place: each pixel of the picture has the value that the formula has at its middle.</summary>
    [Theory]
    [InlineData(0.25, 0, 0)]
    [InlineData(0.4, 20, 10)]
    [InlineData(0.1, 25, 15)]
    public void A_place_is_the_same_whatever_a_photographs_pixels_are(double mmPerPixel, double left, double top)
    {
        var layer = new Layers(_home.Studio).Find(_home.Add("VIS", "VIS_01.tif", 1, new Box(left, top, 160, 100), mmPerPixel, Value));
        using var picture = Image.NewFromBuffer(PlaneDetail.Draw(_home.Studio, layer, new Box(30, 20, 120, 70), 240, DisplayFormat.Png));
        Assert.Equal((240, 140), (picture.Width, picture.Height));
        for (var y = 5; y < 140; y += 27)
            for (var x = 5; x < 240; x += 47) Assert.Equal(Value(30 + (x + 0.5) / 2, 20 + (y + 0.5) / 2, 0) / 257, picture[x, y][0], 1.0);
    }

    [Fact]
    public void The_report_shows_the_place_and_what_cannot_be_drawn_is_refused()
    {
        Add("VIS", "VIS_01.tif", 0.25);
        var after = Add("VIS", "VIS_02.tif", 0.25);
        Write(0, after);
        var document = new Dossier(_home.Studio).Of(_home.Painting.Id, DocumentKind.Treatment, "en");
        var plates = document.Sections.SelectMany(s => s.Sections).Single(s => s.Title == "Before, during and after").Blocks.OfType<Studio.Documents.Model.Plates>().Single();
        Assert.Equal([120.0, 120.0], plates.Items.Select(p => p.Scale!.WidthMm));
        Assert.Equal(["Before the treatment. Visible. VIS_01.tif", "2 March 2026. Visible. VIS_02.tif"], plates.Items.Select(p => p.Caption.Plain));
        var layer = new Layers(_home.Studio).Find($"p-{after}");
        string Refused(Box place, int longest) => Assert.Throws<InputProblem>(() => PlaneDetail.Draw(_home.Studio, layer, place, longest)).Code;
        foreach (var box in new[] { new Box(0, 0, 0, 10), new Box(0, 0, double.NaN, 10), new Box(double.NaN, 0, 10, 10), new Box(0, 0, 1e9, 10), new Box(0, 0, -5, 10), new Box(double.PositiveInfinity, 0, 5, 10) }) Assert.Equal("place", Refused(box, 100));
        foreach (var longest in new[] { 0, -1, 2001 }) Assert.Equal("place", Refused(new Box(0, 0, 10, 10), longest));
        Assert.Equal("not-on-plane", Assert.Throws<InputProblem>(() => PlaneDetail.Draw(_home.Studio, new Layers(_home.Studio).Find($"o-{after}"), new Box(0, 0, 10, 10), 100)).Code);
        Assert.NotEmpty(PlaneDetail.Draw(_home.Studio, layer, new Box(0, 0, 10, 1e-6), 100));
    }

    /// <summary>Photographs differ: the studio takes each file in once.</summary>
    private int _taken;

    private static double Value(double x, double y, int band) => 100 * x + 200 * y;

    private static Func<double, double, int, double> With(int more) => (x, y, band) => Value(x, y, band) + more;

    private Guid Add(string light, string name, double mmPerPixel) => Guid.Parse(_home.Add(light, name, 1, new Box(0, 0, 200, 150), mmPerPixel, With(++_taken))[2..]);

    private void Write(int day, params Guid[] photographs) =>
        new TreatmentLog(_home.Studio).Create(_home.Painting.Id, new LogEntryContent { StepId = _step.Id, On = Day.AddDays(day), Who = "Marta Oud", What = "Faced.", Zones = [_band], Photographs = photographs }, "marta");

    private TreatmentViews Views() => TreatmentViews.Of(_home.Studio, _home.Painting.Id, new TreatmentLog(_home.Studio).ByDay(_home.Painting.Id));
}
