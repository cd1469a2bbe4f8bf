using System.Text.Json;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;
using Sandarac.Analysis.Declaring;

namespace Sandarac.Studio.Record;

/// <summary>What a run proposes in a micrograph: the boundaries of layers, and the layers. They lie on no plane, so they are no zones.</summary>
public sealed class RunProposal
{
    /// <summary>Finer than any boundary can be placed; it keeps the record small.</summary>
    private const double StepsPerPixel = 100;

    private static readonly JsonSerializerOptions Json = new() { Converters = { new GeoJsonConverterFactory() } };

    /// <summary>The run.</summary>
    public required Guid RunId { get; init; }

    /// <summary>0, 1, 2 in the order in which the reading proposed them.</summary>
    public required int Number { get; init; }

    /// <summary>What it is, kebab-case.</summary>
    public required string Kind { get; init; }

    /// <summary>Where, as GeoJSON in pixels of the run's first input from its upper left corner, y down; to a hundredth of a pixel.</summary>
    public required string Geometry { get; init; }

    /// <summary>0 to 1.</summary>
    public required double Confidence { get; init; }

    /// <summary>Why, in words.</summary>
    public required string Reason { get; init; }

    /// <summary>What a reading proposed, as the record keeps it.</summary>
    internal static RunProposal Of(Guid runId, int number, Candidate candidate)
    {
        var geometry = candidate.Geometry.Copy();
        geometry.Apply(new Hundredths());
        return new RunProposal { RunId = runId, Number = number, Kind = candidate.Kind, Geometry = JsonSerializer.Serialize(geometry, Json), Confidence = candidate.Confidence, Reason = candidate.Reason };
    }

    private sealed class Hundredths : ICoordinateSequenceFilter
    {
        public bool Done => false;

        public bool GeometryChanged => true;

        public void Filter(CoordinateSequence seq, int i)
        {
            seq.SetX(i, Math.Round(seq.GetX(i) * StepsPerPixel) / StepsPerPixel);
            seq.SetY(i, Math.Round(seq.GetY(i) * StepsPerPixel) / StepsPerPixel);
        }
    }
}
