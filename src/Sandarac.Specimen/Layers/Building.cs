using Sandarac.Specimen.Ageing;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;
using Sandarac.Specimen.Scene;
using Sandarac.Specimen.Sections;
using Sandarac.Specimen.Strokes;
using Sandarac.Specimen.Support;
using Sandarac.Specimen.Truth;

namespace Sandarac.Specimen.Layers;

/// <summary>Makes the painting in the order in which such a painting is made and altered: support, ground, priming, drawing, paint, age,
/// varnish, repairs.</summary>
internal sealed class Building(Canvas canvas, int seed, string truthFolder, ParallelOptions options, Action<double, string> report)
{
    private const int Stages = 26;
    private readonly List<LayerNote> _layers = [];
    private readonly List<Mask> _masks = [];
    private readonly Dictionary<SectionSite, List<SiteLayer>> _sites = SectionSite.All.ToDictionary(s => s, _ => new List<SiteLayer>());
    private readonly List<LaidMark> _marks = [];
    private int _stage;

    public Painted Build()
    {
        var panel = new PanelBuild(seed);
        Stage("planing the panel", () => panel.Lay(canvas, options));
        LayGround(panel);
        LayPaint();
        Stage("letting it crack", () => _masks.Add(new Cracks(seed, panel).Open(canvas, options)));
        LayVarnishAndRepairs();
        return new Painted(canvas, _layers, _masks, _sites, _marks);
    }

    private void LayGround(PanelBuild panel)
    {
        Stage("laying the ground", () => Ground.Lay(canvas, panel, seed, options));
        Finish("ground", "chalk and glue ground, unevenly thick", Bodies.Chalk);
        Stage("priming", () => Ground.LayThinPriming(canvas, seed, options));
        Lay(new DrawnPassages(seed).Priming());
        Lay(new DrawnPassages(seed).Underdrawing(), ("underdrawing", 0.3f, 1.5f));
    }

    private void LayPaint()
    {
        var motif = new Motif(seed);
        var (drawn, sky, flats, ferry, posts) = (new DrawnPassages(seed), new SkyPassages(motif, seed), new FlatsPassages(motif, seed),
            new FerryPassages(seed), new PostPassages(motif, seed));
        var (primed, primedHeight) = (canvas.Reflectance.ToArray(), canvas.Height.ToArray());
        foreach (var passage in new Func<Passage>[] { sky.LayIn, flats.LayIn }) Lay(passage());
        Lay(ferry.Contours(), ("brush contours", 1, 6));
        Lay(drawn.GivenUpSkiff(), ("given-up skiff", 2, 8));
        Lay(drawn.Cover());
        foreach (var passage in new Func<Passage>[] { sky.Clouds, flats.FarShore, sky.Lights, flats.Pools }) Lay(passage());
        Lay(flats.Sands(), null, () =>
        {
            _masks.Add(HandTraces.Scrape(canvas, primed, primedHeight, seed, options));
            _masks.Add(HandTraces.Print(canvas, seed, options));
        });
        foreach (var passage in new Func<Passage>[] { ferry.Hull, ferry.Rig, posts.Posts, posts.Figures }) Lay(passage());
        Lay(posts.Accents(), ("accents", 5, 30));
        AddMask("priming visible", "less than some 4 um of paint over the priming", i => 1
            - Shape.Step(2, 6, canvas.Height[i] - primedHeight[i]));
        AddMask("impasto", "paint more than some 120 um thick over the priming", i =>
            Shape.Step(110, 130, canvas.Height[i] - primedHeight[i]));
        AddMask("dark original", "dark in luminescence although wholly original: umber and bone black", i => 1
            - Shape.Step(0.045f, 0.06f, canvas.Glow[i][1]));
    }

    private void LayVarnishAndRepairs()
    {
        var (varnish, repair) = (new Varnish(seed), new Retouching(seed));
        Stage("losing a little paint", () => _masks.Add(repair.Lose(canvas, options)));
        Stage("varnishing", () => varnish.LayAged(canvas, options));
        Finish("aged varnish", "natural resin, aged; thinned in an earlier cleaning window, swollen at its tide line", Resin.Aged.AsPaint);
        var grid = canvas.Grid;
        AddMask("cleaning window", "where an earlier cleaning took the aged varnish", i =>
            Shape.Step(0.2f, 1.2f, varnish.WindowDepth(grid.X(i % grid.Width), grid.Y(i / grid.Width))));
        Stage("retouching", () => _masks.Add(repair.Lay(canvas, "retouching under varnish", "later paint between the two coats of varnish",
            Retouching.UnderVarnish, options)));
        Finish("retouching under varnish", "later paint between the two coats of varnish", Bodies.Retouch);
        Stage("varnishing again", () => varnish.LayLater(canvas, options));
        Finish("later varnish", "a thin later coat over everything", Resin.Later.AsPaint);
        Stage("retouching again", () => _masks.Add(repair.Lay(canvas, "retouching over varnish", "later paint on top of all varnish",
            Retouching.OverVarnish, options)));
        Finish("retouching over varnish", "later paint on top of all varnish", Bodies.Retouch);
    }

    private void Lay(Passage passage, (string Mask, float None, float Full)? mask = null, Action? alsoInIt = null)
    {
        Stage(passage.Name, () => Schedule.Lay(passage.Strokes, canvas, seed * 31 + _stage, _marks.Count, options));
        _marks.AddRange(passage.Strokes.Select(s => new LaidMark(passage.Name, s)));
        alsoInIt?.Invoke();
        if (mask is { } m) AddMask(m.Mask, passage.Meaning, i => Shape.Step(m.None, m.Full, canvas.Layer[i]));
        Finish(passage.Name, passage.Meaning, passage.Strokes[passage.Strokes.Count / 2].Paint);
    }

    private void AddMask(string name, string meaning, Func<int, float> share) =>
        _masks.Add(Mask.From(name, meaning, canvas.Grid, options, share));

    private void Stage(string doing, Action work)
    {
        options.CancellationToken.ThrowIfCancellationRequested();
        report((double)_stage++ / Stages, doing);
        work();
    }

    /// <summary>The layer is laid: note it, keep its map, read it at the samples' sites, clear the way for the next.</summary>
    private void Finish(string name, string meaning, Paint paint)
    {
        var number = _layers.Count + 1;
        var map = new LayerMap(canvas, options);
        map.Write(Path.Combine(truthFolder, "layers"), number, name);
        _layers.Add(new LayerNote(number, name, meaning, paint, map.CoveredShare, map.MeanUm, map.MaxUm));
        foreach (var (site, layers) in _sites) layers.Add(site.Read(canvas, number));
        Array.Clear(canvas.Layer);
    }
}

/// <summary>The finished painting and what is known of its making.</summary>
internal sealed record Painted(Canvas Canvas, IReadOnlyList<LayerNote> Layers, IReadOnlyList<Mask> Masks, IReadOnlyDictionary<SectionSite,
    List<SiteLayer>> Sites, IReadOnlyList<LaidMark> Marks);

/// <summary>A mark of the brush and the passage it belongs to.</summary>
internal sealed record LaidMark(string Passage, Stroke Stroke);
