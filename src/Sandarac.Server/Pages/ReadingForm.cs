using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Primitives;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages;

/// <summary>The form of a reading, made from its declaration and from the photographs that a painting has for it.</summary>
public sealed class ReadingForm
{
    private const string ParameterPrefix = "parameter-";
    private const string InputPrefix = "input-";
    private const int LongestAddress = 2000;

    /// <summary>Parameters for the ends of a line, pixels of the photograph; the viewer knows them too.</summary>
    private static readonly string[] LineEnds = ["from-x", "from-y", "to-x", "to-y"];

    private readonly Guid _paintingId;
    private readonly Dictionary<string, string> _values;
    private readonly Dictionary<string, IReadOnlyList<Guid>> _chosen;

    private ReadingForm(Guid paintingId, Declaration declaration, IReadOnlyList<Photograph> photographs)
    {
        _paintingId = paintingId;
        Declaration = declaration;
        Slots = [.. declaration.Inputs.Select(slot => new Slot(slot, [.. photographs.Where(p => Fits(slot, p))]))];
        _values = declaration.Parameters.ToDictionary(p => p.Name, p => p.DefaultText);
        _chosen = Slots.ToDictionary(s => s.Input.Name, s => s.Suggested);
    }

    /// <summary>An input with the photographs that may fill it.</summary>
    /// <param name="Input">The input as the reading declares it.</param>
    /// <param name="Photographs">Photographs that may fill it.</param>
    public sealed record Slot(InputSlot Input, IReadOnlyList<Photograph> Photographs)
    {
        /// <summary>Whether there are enough of them.</summary>
        public bool CanBeFilled => Photographs.Count >= Input.Minimum;

        /// <summary>Name of the form's field.</summary>
        public string Field => InputPrefix + Input.Name;

        /// <summary>What it is called above its field.</summary>
        public string Title => string.Concat(char.ToUpperInvariant(Input.Name[0]).ToString(), Input.Name[1..].Replace('-', ' '));

        /// <summary>An input that may stay empty does; one that takes many gets them all.</summary>
        internal IReadOnlyList<Guid> Suggested => [.. Photographs.Take(Input.Maximum > 1 ? Input.Maximum : Input.Minimum).Select(p => p.Id)];
    }

    /// <summary>What the reading says of itself.</summary>
    public Declaration Declaration { get; }

    /// <summary>Its inputs.</summary>
    public IReadOnlyList<Slot> Slots { get; }

    /// <summary>What was wrong with the last try.</summary>
    public InputProblem? Problem { get; private set; }

    /// <summary>Whether every input can be filled.</summary>
    public bool CanRun => Slots.All(s => s.CanBeFilled);

    /// <summary>Whether it measures along a line that can be drawn on a photograph.</summary>
    public bool HasLine => !Declaration.OnPlane && LineEnds.All(end => Declaration.Parameters.Any(p => p.Name == end)) && Slots.Any(s => s.Input.Maximum == 1 && s.CanBeFilled);

    internal static ReadingForm For(OpenStudio studio, Guid paintingId, Declaration declaration)
    {
        using var db = studio.CreateDb();
        var photographs = db.Photographs.AsNoTracking().Include(p => p.Alignments.Where(a => a.SupersededBy == null))
            .Where(p => p.PaintingId == paintingId).AsEnumerable().InOrder();
        return new ReadingForm(paintingId, declaration, [.. photographs.Where(p => !declaration.OnPlane || IsOnPlane(p))]);
    }

    internal static string FieldOf(Parameter parameter) => ParameterPrefix + parameter.Name;

    internal string ValueOf(Parameter parameter) => _values[parameter.Name];

    internal bool IsChosen(Slot slot, Photograph photograph) => _chosen[slot.Input.Name].Contains(photograph.Id);

    /// <summary>The problem when it lies with this parameter or input.</summary>
    internal InputProblem? ProblemAt(string name) => Problem?.Subject == name ? Problem : null;

    /// <summary>The problem when it lies with none of the fields.</summary>
    internal InputProblem? ProblemElsewhere =>
        Declaration.Parameters.Any(p => p.Name == Problem?.Subject) || Slots.Any(s => s.Input.Name == Problem?.Subject) ? null : Problem;

    /// <summary>Takes what the address holds: whatever it does not name stays as the reading declares it.</summary>
    internal void Begin(IQueryCollection address)
    {
        foreach (var parameter in Declaration.Parameters)
            if (address.TryGetValue(FieldOf(parameter), out var value)) _values[parameter.Name] = value.ToString().Trim();
        foreach (var slot in Slots)
            if (address.TryGetValue(slot.Field, out var chosen)) _chosen[slot.Input.Name] = Keys(chosen);
    }

    /// <summary>The address of this form as it is filled in; of the empty one where that would be longer than servers take.</summary>
    internal string Address => $"readings{Query([])}" is { Length: <= LongestAddress } address ? address : $"readings{QueryString.Create("reading", Declaration.Id)}";

    /// <summary>The address of where its line is drawn.</summary>
    internal string DrawingAddress => $"easel{Query(Words("line", _chosen[Slots.First(s => s.Input.Maximum == 1).Input.Name].Take(1).Select(id => $"{id}")))}";

    /// <summary>Takes what a person entered and asks for the run; null when something is wrong, which the form then shows.</summary>
    internal Run? TryAsk(IFormCollection entered, Func<RunRequest, Run> ask)
    {
        Take(entered);
        try
        {
            return ask(new RunRequest(_paintingId, Declaration.Id, _values, _chosen, Environment.UserName));
        }
        catch (InputProblem problem)
        {
            Problem = problem;
            return null;
        }
    }

    /// <summary>Takes what a person entered.</summary>
    internal void Take(IFormCollection entered)
    {
        foreach (var parameter in Declaration.Parameters)
            _values[parameter.Name] = parameter is FlagParameter
                ? entered.ContainsKey(FieldOf(parameter)) ? "true" : "false"
                : entered[FieldOf(parameter)].ToString().Trim();
        foreach (var slot in Slots) _chosen[slot.Input.Name] = Keys(entered[slot.Field]);
    }

    /// <summary>What is filled in and is not as the reading declares it, documents left out.</summary>
    private QueryString Query(IEnumerable<KeyValuePair<string, string?>> first) => QueryString.Create(
    [
        .. first, .. Words("reading", [Declaration.Id]), .. Slots.SelectMany(s => Words(s.Field, _chosen[s.Input.Name].Select(id => $"{id}"))),
        .. Declaration.Parameters.Where(p => p is not DocumentParameter && _values[p.Name] != p.DefaultText).SelectMany(p => Words(FieldOf(p), [_values[p.Name]])),
    ]);

    private static IEnumerable<KeyValuePair<string, string?>> Words(string field, IEnumerable<string> values) => values.Select(v => KeyValuePair.Create<string, string?>(field, v));

    private static Guid[] Keys(StringValues texts) => [.. texts.Select(text => Guid.TryParse(text, out var id) ? id : (Guid?)null).OfType<Guid>()];

    /// <summary>A photograph whose light nobody knows may fill any slot: a person's word is taken for it.</summary>
    private static bool Fits(InputSlot slot, Photograph photograph) =>
        slot.Lights.Count == 0 || photograph.Light is null || slot.Lights.Any(l => l.Code == photograph.Light);

    private static bool IsOnPlane(Photograph photograph) => photograph.Alignments.Any(a => a.PlaneImage is not null);
}
