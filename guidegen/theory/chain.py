"""Several joints one after another: how their wobbles add at the end of the chain.

A joint that tilts lifts everything beyond it by its tilt times the straight distance from it to the end. The
travels of all joints add. What is drawn from its own bag of parts scatters on its own, so the root of the
sum of squares tells how far sums usually lie from their middle; gravity is no lottery: it leans all joints
the same way, and the plain sum comes true.
"""

from guidegen.theory.declare import formula, sqrt


@formula(gives="y_n", source="derived", at="tilt times distance, joint by joint", holds="theta_i >= 0")
def chain_travel(y_e, theta_i, x_i):
    """Total travel at the end of a chain with one more joint: all leaning the same way, then the other."""
    return y_e + 2 * theta_i * x_i


@formula(gives="y_n", source="derived", at="root of the sum of squares, joint by joint", holds="theta_i >= 0")
def chain_travel_root(y_e, theta_i, x_i):
    """Travel at the end with one more joint, when each leans as it likes: the root of the sum of squares."""
    return sqrt(y_e**2 + (2 * theta_i * x_i) ** 2)


@formula(gives="y_n", source="derived", at="sum of the first whole numbers", holds="n_joints >= 1")
def equal_chain(y_one, n_joints):
    """Total travel at the end of equal joints with equal arms in one line, all leaning the same way."""
    return y_one * n_joints * (n_joints + 1) / 2


@formula(gives="y_n", source="derived", at="sum of the first squares", holds="n_joints >= 1")
def equal_chain_root(y_one, n_joints):
    """The same when each leans as it likes."""
    return y_one * sqrt(n_joints * (n_joints + 1) * (2 * n_joints + 1) / 6)
