namespace Sandarac.Analysis.Rings.Dating;

/// <summary>A sample against a reference at one position.</summary>
/// <param name="EndYear">Year of the sample's last ring at this position.</param>
/// <param name="Pairs">N: years in which both have a transformed value.</param>
/// <param name="Correlation">Pearson's r of the transformed values.</param>
/// <param name="T">Student's t of it.</param>
/// <param name="Parallel">Coefficient of parallel variation.</param>
public sealed record CrossMatch(int EndYear, int Pairs, double Correlation, double T, ParallelVariation Parallel);
