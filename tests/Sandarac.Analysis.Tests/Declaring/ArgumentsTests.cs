using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Quality;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Declaring;

public class ArgumentsTests
{
    private static readonly LengthParameter Window = new("window", "Window", "Side of the window.", 5, 0.1, 50);
    private static readonly Declaration Sample = new PhotographQuality().Declaration with { Id = "sample", Parameters = [Window, new FlagParameter("deep", "Deep", "Look longer.", false), new IntegerParameter("steps", "Steps", "How many.", null, 3, 1, 9)] };

    [Fact]
    public void Defaults_fill_what_is_not_given()
    {
        var arguments = Arguments.Resolve(Sample, new Dictionary<string, string> { ["steps"] = "7" });
        Assert.Equal([new("window", "5", "mm"), new("deep", "false", null), new ArgumentText("steps", "7", null)], arguments.Texts);
        Assert.Equal(5.0, arguments.Value(Window));
    }

    [Theory]
    [InlineData("windwo", "Did you mean \"window\"?")]
    [InlineData("Window", "Did you mean \"window\"?")]
    [InlineData("stesp", "Did you mean \"steps\"?")]
    [InlineData("colour", "Its parameters are: window, deep, steps.")]
    public void Invalid_names_are_refused_with_a_suggestion(string name, string remedy)
    {
        var problem = Assert.Throws<InputProblem>(() => Arguments.Resolve(Sample, new Dictionary<string, string> { [name] = "1" }));
        Assert.Equal(("unknown-parameter", name, remedy), (problem.Code, problem.Subject, problem.Remedy));
    }

    [Theory]
    [InlineData("window", "0.05")]
    [InlineData("window", "51")]
    [InlineData("window", "NaN")]
    [InlineData("window", "5,5")]
    [InlineData("window", "")]
    [InlineData("deep", "yes")]
    [InlineData("steps", "2.5")]
    [InlineData("steps", "10")]
    public void Invalid_values_are_refused_with_the_range(string name, string value)
    {
        var problem = Assert.Throws<InputProblem>(() => Arguments.Resolve(Sample, new Dictionary<string, string> { [name] = value }));
        Assert.Equal(("parameter-value", name), (problem.Code, problem.Subject));
        Assert.Contains(Sample.Parameters.Single(p => p.Name == name).RangeText, problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_length_needs_a_scale_and_the_remedy_says_how_to_give_it()
    {
        using var folder = new TempFolder();
        using var image = TestRun.Open(TestTiff.Write8(folder["a.tif"], new Plane(8, 8))).Image;
        var without = new InputImage("a.tif", image, null, null, "");
        var run = new TestRun(Sample, Arguments.Resolve(Sample, new Dictionary<string, string>()), new Dictionary<string, IReadOnlyList<InputImage>> { ["photograph"] = [without] });
        var problem = Assert.Throws<InputProblem>(() => run.Pixels(Window, without));
        Assert.Equal("no-scale", problem.Code);
        Assert.Contains("--scale-mm-per-px", problem.Remedy, StringComparison.Ordinal);
        Assert.Equal(20, run.Pixels(Window, without with { Scale = new PixelScale(0.25, ScaleOrigin.Measured) }));
    }

    [Fact]
    public void Invalid_reading_is_refused_with_the_nearest() =>
        Assert.Equal("Did you mean \"false-colour\"?", Assert.Throws<InputProblem>(() => ReadingCatalogue.Find("false-color")).Remedy);

    [Fact]
    public void Edit_distance_of_known_words()
    {
        // The textbook pair (Wagner and Fischer, Journal of the ACM 21 (1974) 168, and many since): kitten to sitting takes 3 edits; an exchange of neighbours takes 1.
        Assert.Equal(3, Suggestion.Distance("KITTEN", "SITTING"));
        Assert.Equal(1, Suggestion.Distance("AB", "BA"));
        Assert.Equal(4, Suggestion.Distance("", "ABCD"));
    }
}
