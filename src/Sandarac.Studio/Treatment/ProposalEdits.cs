using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment;

/// <summary>Changes of a proposal's content, one option or step at a time; what is not there is added at the end.</summary>
public static class ProposalEdits
{
    /// <summary>The content with an option as given; its steps stay as they are when it is there already.</summary>
    public static ProposalContent With(this ProposalContent content, ProposalOption option) => content with { Options = [.. Put(content.Options, option, o => o.Id)] };

    /// <summary>The content without an option.</summary>
    public static ProposalContent Without(this ProposalContent content, Guid optionId) => content with { Options = [.. content.Options.Where(o => o.Id != optionId)], AdvisedId = content.AdvisedId == optionId ? null : content.AdvisedId };

    /// <summary>The content with a step of an option as given.</summary>
    public static ProposalContent With(this ProposalContent content, Guid optionId, ProposedStep step) => content.InOption(optionId, steps => Put(steps, step, s => s.Id));

    /// <summary>The content without a step of an option.</summary>
    public static ProposalContent Without(this ProposalContent content, Guid optionId, Guid stepId) => content.InOption(optionId, steps => steps.Where(s => s.Id != stepId));

    /// <summary>The content with a step done one place earlier.</summary>
    public static ProposalContent Earlier(this ProposalContent content, Guid optionId, Guid stepId) => content.InOption(optionId, steps =>
    {
        var order = steps.ToList();
        if (order.FindIndex(s => s.Id == stepId) is > 0 and var at) (order[at - 1], order[at]) = (order[at], order[at - 1]);
        return order;
    });

    private static ProposalContent InOption(this ProposalContent content, Guid optionId, Func<IReadOnlyList<ProposedStep>, IEnumerable<ProposedStep>> change) =>
        content with { Options = [.. content.Options.Select(o => o.Id == optionId ? o with { Steps = [.. change(o.Steps)] } : o)] };

    private static IEnumerable<T> Put<T>(IReadOnlyList<T> items, T item, Func<T, Guid> key) => items.Any(i => key(i) == key(item)) ? items.Select(i => key(i) == key(item) ? item : i) : items.Append(item);
}
