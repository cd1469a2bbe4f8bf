using System.Globalization;
using System.Text;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Files;

/// <summary>
/// The Tucson decadal format, in which tree-ring laboratories exchange ring widths (International Tree-Ring Data Bank). A series ends with 999 when its values are hundredths of a millimetre, with -9999 when they are
/// thousandths. The format as described from memory and as public files show it: up to three lines of heading; 0 for a ring locally absent; -999 (and in thousandths -9999 before the end) for one not measured.
/// </summary>
public static class TucsonFile
{
    private const int StopHundredths = 999, StopThousandths = -9999, NotMeasured = -999, MostHeadingLines = 3, MostValues = 11, LongestId = 8, PerLine = 10;

    /// <summary>A 999 at the end of a line with more to come: an end, or 0.999 mm; the series' own end tells which.</summary>
    private const int EndOrWidth = int.MinValue;

    /// <summary>Widest ring in mm that is taken for one.</summary>
    private const double Widest = 100;

    /// <summary>Reads the series of a file, in its order.</summary>
    /// <param name="name">The file's name, for messages.</param>
    /// <param name="text">Its text.</param>
    /// <exception cref="InputProblem">Not such a file, a line that is none, years that do not follow on, a series without an end; with the number of the line.</exception>
    public static IReadOnlyList<RingWidths> Parse(string name, string text)
    {
        List<Started> all = [];
        HashSet<string> ids = [];
        var rings = 0L;
        foreach (var line in Lines(name, text))
        {
            var series = all.Count > 0 && all[^1].Id == line.Id ? all[^1] : null;
            if (series is null && !ids.Add(line.Id)) throw RingFile.Problem("rings-twice", name, line.Number, $"{line.Id} begins a second time", "Give each series an id of its own.");
            if (series is null) all.Add(series = new Started(name, line.Id, line.Year));
            rings += series.Add(line);
            RingFile.CheckSize(name, all.Count, rings);
        }
        return [.. all.Select(s => s.Finished())];
    }

    /// <summary>Writes series in thousandths of a millimetre, so that nothing measured to a micrometre is lost.</summary>
    /// <exception cref="InputProblem">"rings-id": two ids are alike in the format's eight characters, or one is empty.</exception>
    public static string Write(IReadOnlyList<RingWidths> series)
    {
        var ids = series.Select(s => Short(s.Id)).ToList();
        if (ids.FirstOrDefault(i => i.Length == 0 || ids.Count(o => o == i) > 1) is { } bad)
            throw new InputProblem("rings-id", bad, $"The id \"{bad}\" is empty or not the only one: the format keeps eight characters.", "Shorten the series' names so that their first eight characters differ.");
        var text = new StringBuilder();
        foreach (var (s, id) in series.Zip(ids)) Write(text, s, id);
        return text.ToString();
    }

    private static void Write(StringBuilder text, RingWidths series, string id)
    {
        RingFile.CheckYears(id, 1, id, series.FirstYear, series.Widths.Count);
        int[] values = [.. series.Widths.Select(w => double.IsFinite(w) ? (int)Math.Round(w * 1000) : NotMeasured), StopThousandths];
        // A year of five characters ("-1234") takes the id's last column.
        id = series.FirstYear < -999 ? id[..Math.Min(id.Length, LongestId - 1)].PadRight(LongestId - 1) : id.PadRight(LongestId);
        for (var i = 0; i < values.Length;)
        {
            var year = series.FirstYear + i;
            var count = Math.Min(PerLine - (year % PerLine + PerLine) % PerLine, values.Length - i);
            text.Append(id).Append(year.ToString(CultureInfo.InvariantCulture).PadLeft(12 - id.Length));
            foreach (var v in values.AsSpan(i, count)) text.Append(v.ToString(CultureInfo.InvariantCulture).PadLeft(6));
            text.Append('\n');
            i += count;
        }
    }

    private static string Short(string id)
    {
        var letters = string.Concat(id.Where(char.IsAsciiLetterOrDigit));
        return letters[..Math.Min(letters.Length, LongestId)];
    }

    private static IEnumerable<TucsonLine> Lines(string name, string text)
    {
        var (number, heading) = (0, 0);
        var begun = false;
        foreach (var line in text.Split('\n').Select(l => l.TrimEnd('\r', ' ', '\u001a')))
        {
            number++;
            if (line.Length == 0) continue;
            if (TucsonLine.Parse(number, line) is { } parsed)
            {
                begun = true;
                if (parsed.Values.Count > MostValues) throw RingFile.Problem("rings-line", name, number, $"{parsed.Values.Count} values where ten and an end marker fit", "Check the line against the Tucson decadal format.");
                yield return parsed;
            }
            else if (begun || ++heading > MostHeadingLines)
                throw RingFile.Problem("rings-line", name, number, begun ? "this is no line of ring widths" : "no ring widths after three lines of heading", "Give a Tucson decadal file (.rwl), or a table as .csv.");
        }
        if (!begun) throw new InputProblem("rings-empty", name, $"{name} holds no ring widths.", "Give a Tucson decadal file (.rwl), or a table as .csv.");
    }

    /// <summary>A series while its lines come in.</summary>
    private sealed class Started(string name, string id, int startYear)
    {
        private int _firstYear = startYear;
        private readonly List<int> _values = [];
        private int _line;
        private int? _stop;

        public string Id => id;

        private int Next => _firstYear + _values.Count;

        /// <summary>Takes a line; how many rings longer the series is.</summary>
        public int Add(TucsonLine line)
        {
            var before = _values.Count;
            _line = line.Number;
            // Some write 1 after -1: their years before the first lie one further back than a count with a year 0 has them.
            if (_stop is null && _values.Count > 0 && line.Year == 1 && Next == 0) _firstYear++;
            // After an end marker a series may go on: what lies between was not measured.
            if (line.Year != Next && !(_stop is not null && line.Year > Next))
                throw RingFile.Problem("rings-years", name, line.Number, $"{id} goes on with {line.Year} where {Next} is due", "Check the years of its lines.");
            RingFile.CheckYears(name, line.Number, id, line.Year, line.Values.Count);
            if (line.Year > Next) _values.AddRange([_stop == StopHundredths ? EndOrWidth : NotMeasured, .. Enumerable.Repeat(NotMeasured, line.Year - Next - 1)]);
            _stop = line.Values[^1] is StopHundredths or StopThousandths ? line.Values[^1] : null;
            _values.AddRange(_stop is null ? line.Values : line.Values.Take(line.Values.Count - 1));
            return _values.Count - before;
        }

        public RingWidths Finished()
        {
            if (_stop is not { } stop)
                throw RingFile.Problem("rings-unended", name, _line, $"{id} ends without 999 or -9999, so the file may be cut short and its unit is not known", "Copy the file again, or end the series with 999 (hundredths of a millimetre) or -9999 (thousandths).");
            if (_values.All(v => v is NotMeasured or StopThousandths)) throw RingFile.Problem("rings-empty", name, _line, $"{id} has no rings", "Take the series out.");
            var unit = stop == StopHundredths ? 100.0 : 1000;
            return new RingWidths(id, _firstYear, [.. _values.Select((v, i) => Width(v, i, unit))]);
        }

        private double Width(int value, int index, double unit)
        {
            if (value is NotMeasured or StopThousandths || value == EndOrWidth && unit == 100) return double.NaN;
            if (value == EndOrWidth) return StopHundredths / unit;
            if (value < 0 || value / unit > Widest || value == StopHundredths && unit == 100)
                throw RingFile.Problem("rings-width", name, _line, $"{id} has {value} as the width of the ring of {_firstYear + index}", "Widths are whole numbers from 0; -999 stands for one that was not measured.");
            return value / unit;
        }
    }
}
